import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { hashFile } from '../../../core/files/hash-file.ts';
import { settleIndex } from '../../../core/time/settle-index.ts';
import { readSoundEnvelope } from '../../../core/video/decode/sound-envelope.ts';
import { readClipIndex } from '../../../core/video/index/read-clip-index.ts';
import { isAtLeast } from '../../../core/video/process/find-ffmpeg.ts';
import { ProxyStore } from '../../../core/video/proxy/proxy-store.ts';
import type { ClipProxy } from '../../../core/video/proxy/proxy-store.ts';
import type { ProxySide } from '../../../core/video/proxy/proxy-size.ts';
import { stripFrames } from '../../../renderer/bench/playback/strip-plan.ts';
import type { BenchClip } from '../bench-clip.ts';
import { runPlain } from './run-plain.ts';

/** Pictures of a strip on a wide screen. */
const CELLS = 30;

/**
 * Milliseconds until all is there that one pass over a clip with sound gives: its copy, its settled table, the pictures of
 * its strip, decoded, and its sound. Throws where the table, the strip or the sound is not what it must be.
 */
export async function timeFirstPass(clip: BenchClip, longest: ProxySide): Promise<number> {
  const { ffmpeg, name } = clip;
  const folder = await mkdtemp(join(tmpdir(), 'baybook-bench-pass-'));
  try {
    const path = join(folder, 'with-sound.mp4');
    const sound = ['-f', 'lavfi', '-i', 'sine=frequency=330:sample_rate=48000', '-shortest', '-c:a', 'aac'];
    await runPlain(ffmpeg, ['-i', clip.path, ...sound, '-map', '0:v', '-map', '1:a', '-c:v', 'copy', path]);
    const index = await readClipIndex(path, { ffmpeg });
    const { sha256 } = await hashFile(path);
    const copies = new ProxyStore(join(folder, 'copies'));
    const start = performance.now();
    const copy = await copies.open({ sha256, index, longest });
    const heard = readSoundEnvelope(path, index, { ffmpeg });
    const pass = await copies.build(copy, { path, ffmpeg }, { signal: new AbortController().signal });
    const settled = settleIndex(index, pass);
    await decodeStrip(clip, copy, settled.frames);
    const envelope = await heard;
    const lasted = performance.now() - start;
    await copy.release();
    if (settled.frames.length !== clip.truth.frames.length) throw new Error(`${name}: settled to other frames`);
    if (envelope === null) throw new Error(`${name}: its sound was not heard`);
    return lasted;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function decodeStrip(
  { ffmpeg, name }: BenchClip,
  copy: ClipProxy,
  frames: readonly { readonly pts: number }[],
): Promise<void> {
  // Each as it comes: by their times, which these have none of, one would be left out.
  const unpaced = isAtLeast(ffmpeg.version, '5.1') ? ['-fps_mode', 'passthrough'] : ['-vsync', '0'];
  const args = ['-v', 'error', '-f', 'h264', '-i', 'pipe:0', ...unpaced, '-f', 'framecrc', 'pipe:1'];
  const run = spawn(ffmpeg.path, args, { stdio: ['pipe', 'pipe', 'inherit'] });
  const ended = once(run, 'close');
  let said = '';
  run.stdout.on('data', (text: Buffer) => (said += text.toString('latin1')));
  for (const frame of stripFrames(frames.length, CELLS)) {
    const data = await copy.read(frames[frame]?.pts ?? NaN);
    if (data === null) throw new Error(`${name}: the copy lacks frame ${frame}`);
    run.stdin.write(data);
  }
  run.stdin.end();
  await ended;
  const decoded = said.split('\n').filter((line) => /^0,/.test(line)).length;
  if (decoded !== CELLS) throw new Error(`${name}: ${decoded} pictures of the strip instead of ${CELLS}`);
}
