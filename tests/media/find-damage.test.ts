import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { isDamaged } from '../../core/time/damaged-spans.ts';
import { settleIndex } from '../../core/time/settle-index.ts';
import { readPackets } from '../../core/video/index/clip-source.ts';
import { findDamage } from '../../core/video/index/find-damage.ts';
import { findFfmpeg, isAtLeast } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { buildCopy } from '../support/proxy-builds.ts';
import { seeded } from '../support/seeded.ts';
import { sized } from '../support/sized.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const ffmpeg = await findFfmpeg();
const FRAMES = 120;
const GROUP = 24;
// One thread and no code for special processors: the same file on every machine, so that the same bits of it are spoiled.
const SAME_EVERYWHERE = ['-threads', '1', '-x264-params', 'asm=0'];
const H264 = [
  ...['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', String(GROUP)],
  ...SAME_EVERYWHERE,
];
const HEVC_PARAMETERS = `keyint=${GROUP}:min-keyint=${GROUP}:scenecut=0:bframes=2:open-gop=0:log-level=error`;
const HEVC = ['-c:v', 'libx265', '-pix_fmt', 'yuv420p', '-x265-params', HEVC_PARAMETERS];
/** Releases that read ahead of their decoder leave it uncertain which packet it complains of: groups beside may be doubted. */
const BESIDE = isAtLeast(ffmpeg.version, '6.1') ? 1 : 0;
const BYTES = 24;
/** Beyond the length and the header of a picture's first unit. */
const WITHIN = 16;

afterAll(() => {
  expect(runningCount()).toBe(0);
  rmSync(shared, { recursive: true });
});

const shared = mkdtempSync(join(tmpdir(), 'baybook-test-'));

/** The same answer for the same key, made when it is first asked for. */
function once<Key, Value>(make: (key: Key) => Value): (key: Key) => Value {
  const made = new Map<Key, Value>();
  return (key) => {
    const value = made.get(key) ?? make(key);
    made.set(key, value);
    return value;
  };
}

/** A clip without damage, for all tests: nothing writes to it. */
const soundClip = once((name: 'h264.mp4' | 'hevc.mp4' | 'h264.ts'): string => {
  const path = join(shared, name);
  makeCodedClip(ffmpeg, FRAMES, '30', [...(name === 'hevc.mp4' ? HEVC : H264), path]);
  return path;
});
const soundTimes = once(async (path: string) => timesOf(await readClipIndex(path, { ffmpeg })));

/**
 * A copy of an MP4 of pictures alone, whose packets lie one behind the other, with some bytes of a packet overwritten: at
 * its beginning, where its length and header are, or within.
 */
async function damagedCopy(path: string, packet: number, where: 'beginning' | 'within'): Promise<string> {
  const { packets } = await readPackets(path, { ffmpeg });
  const bytes = readFileSync(path);
  const random = seeded(packet);
  const start = bytes.indexOf('mdat') + 4 + packets.slice(0, packet).reduce((sum, { size }) => sum + size, 0);
  const size = packets[packet]?.size ?? 0;
  const length = Math.min(BYTES, size - WITHIN);
  const at = where === 'beginning' ? start : start + WITHIN + Math.floor(random() * (size - WITHIN - length));
  for (let i = 0; i < length; i += 1) bytes[at + i] = Math.floor(random() * 256);
  const copy = join(temporaryFolder(), 'damaged.mp4');
  writeFileSync(copy, bytes);
  return copy;
}

/** What a plain decode delivers: by its time, in ticks of `timebase`, the checksum of each grey picture. */
function delivered(path: string, threads: number, timebase: string): Map<number, string> {
  const args = ['-v', 'quiet', '-threads', String(threads), '-copyts', '-i', path, '-fps_mode', 'passthrough'];
  args.push('-enc_time_base', timebase, '-pix_fmt', 'gray', '-c:v', 'rawvideo', '-f', 'framemd5', '-');
  const lines = spawnSync(ffmpeg.path, args, { encoding: 'utf8' }).stdout.split('\n');
  return new Map(
    lines
      .filter((line) => line.startsWith('0,'))
      .map((line) => line.split(',').map((field) => field.trim()))
      .map(([, , pts, , , sum]) => [Number(pts), sum ?? '']),
  );
}

const timebaseOf = (path: string): string => (path.endsWith('.ts') ? '1:90000' : '1:15360');
const deliveredSound = once((sound: string) => delivered(sound, 1, timebaseOf(sound)));

/** Frames whose picture is not that of the sound clip at the same time, or did not come, by one thread or by two. */
function changedFrames(sound: string, damaged: string, index: ClipIndex): number[] {
  const was = deliveredSound(sound);
  // How broken pictures are patched up differs with the number of threads.
  const is = [1, 2].map((threads) => delivered(damaged, threads, timebaseOf(sound)));
  return index.frames.flatMap(({ pts }, frame) => (is.every((all) => all.get(pts) === was.get(pts)) ? [] : [frame]));
}

const framesFound = (index: ClipIndex): number[] => [...index.frames.keys()].filter((frame) => isDamaged(index, frame));
const timesOf = (index: ClipIndex): number[] => index.frames.map(({ pts }) => pts);

/** The way of every clip into the book: its table, one pass that makes its copy, and the search where that found damage. */
async function settled(path: string): Promise<{ readonly index: ClipIndex; readonly errors: boolean }> {
  const table = await readClipIndex(path, { ffmpeg });
  const { copy, result } = await buildCopy(join(temporaryFolder(), 'copies'), { path, ffmpeg }, table);
  await copy.release();
  const index = settleIndex(table, result, result.errors ? await findDamage(path, { ffmpeg }) : []);
  return { index, errors: result.errors };
}

it('a sound clip has no damage, by the pass over it and by the search', async () => {
  for (const name of ['h264.mp4', 'hevc.mp4'] as const) {
    const path = soundClip(name);
    const { index, errors } = await settled(path);
    expect(errors).toBe(false);
    expect(index).toEqual(await readClipIndex(path, { ffmpeg }));
    expect(await findDamage(path, { ffmpeg })).toEqual([]);
  }
});

// The first and the last picture, about key pictures and amid groups: some of these ffmpeg patches up and only remarks on.
it.each(sized([0, 47, 60], [0, 1, 25, 47, 48, 60, 97, 119]))(
  'H.264 with wrong bits in packet %i: the pass notices, and no changed picture is trusted, no sound group doubted',
  async (packet) => {
    const sound = soundClip('h264.mp4');
    const damaged = await damagedCopy(sound, packet, 'within');
    const { index, errors } = await settled(damaged);
    expect(errors).toBe(true);
    expect(timesOf(index)).toEqual(await soundTimes(sound));
    const found = framesFound(index);
    expect(changedFrames(sound, damaged, index).filter((frame) => !found.includes(frame))).toEqual([]);
    expect(found).not.toEqual([]);
    // Groups are closed: frames and packets of a group have the same numbers.
    const group = Math.floor(packet / GROUP);
    expect(found.filter((frame) => Math.abs(Math.floor(frame / GROUP) - group) > BESIDE)).toEqual([]);
  },
);

/** Frames of the group before that a decoder has not delivered yet when it comes to a key picture that it cannot read. */
const STILL_HELD = 2;

// Wrong bits within a picture HEVC's decoder reads as some picture and says nothing: only what it notices can be found.
it.each(sized([24, 60], [24, 26, 60, 73, 119]))(
  'HEVC with the beginning of packet %i lost: no changed picture is trusted',
  async (packet) => {
    const sound = soundClip('hevc.mp4');
    const damaged = await damagedCopy(sound, packet, 'beginning');
    const { index, errors } = await settled(damaged);
    expect(errors).toBe(true);
    expect(timesOf(index)).toEqual(await soundTimes(sound));
    const found = framesFound(index);
    const changed = changedFrames(sound, damaged, index);
    expect(changed.filter((frame) => !found.includes(frame))).toEqual([]);
    const first = Math.floor(packet / GROUP) * GROUP;
    const from = packet === first ? first - STILL_HELD : first;
    const doubted = found.filter((frame) => frame < from - BESIDE * GROUP || frame >= first + (1 + BESIDE) * GROUP);
    expect(doubted).toEqual([]);
  },
);

/** Bytes of a transport packet (ISO/IEC 13818-1, 2.4.3.2); ffmpeg gives the pictures of a stream alone this number. */
const TS_PACKET = 188;
const TS_PICTURES = 0x100;

it.each(sized([0.58], [0.3, 0.58, 0.77]))(
  'an MPEG-TS that lost packets at %f of its length trusts no changed picture',
  async (share) => {
    const sound = soundClip('h264.ts');
    const bytes = readFileSync(sound);
    const kept: Buffer[] = [];
    const touched = new Set<number>();
    let [picture, left] = [-1, 2];
    for (let at = 0; at < bytes.length; at += TS_PACKET) {
      const packet = bytes.subarray(at, at + TS_PACKET);
      const ofPictures = packet.readUInt16BE(1) % 0x2000 === TS_PICTURES;
      const begins = packet.readUInt8(1) >= 0x40;
      if (ofPictures && begins) picture += 1;
      // Those that begin a picture carry its time.
      if (left === 0 || at < share * bytes.length || !ofPictures || begins) kept.push(packet);
      else {
        left -= 1;
        for (let beside = -BESIDE; beside <= BESIDE; beside += 1) touched.add(Math.floor(picture / GROUP) + beside);
      }
    }
    const damaged = join(temporaryFolder(), 'damaged.ts');
    writeFileSync(damaged, Buffer.concat(kept));
    const { index, errors } = await settled(damaged);
    expect(errors).toBe(true);
    expect(timesOf(index)).toEqual(await soundTimes(sound));
    const found = framesFound(index);
    const changed = changedFrames(sound, damaged, index);
    expect(changed.filter((frame) => !found.includes(frame))).toEqual([]);
    expect(found).not.toEqual([]);
    expect(found.filter((frame) => !touched.has(Math.floor(frame / GROUP)))).toEqual([]);
  },
);

it('a clip cut short within a packet has the frames of the packets that are left, each at its time', async () => {
  const sound = join(temporaryFolder(), 'sound.mp4');
  makeCodedClip(ffmpeg, FRAMES, '30', [...H264, '-movflags', '+faststart', sound]);
  const { packets } = await readPackets(sound, { ffmpeg });
  const bytes = readFileSync(sound);
  const lost = packets.slice(80).reduce((sum, { size }) => sum + size, 0);
  const damaged = join(temporaryFolder(), 'cut.mp4');
  writeFileSync(damaged, bytes.subarray(0, bytes.length - lost + 40));
  const { index } = await settled(damaged);
  const times = packets.slice(0, 81).flatMap(({ pts }) => pts ?? []);
  expect(timesOf(index)).toEqual(times.sort((a, b) => a - b));
  const found = framesFound(index);
  expect(changedFrames(sound, damaged, index).filter((frame) => !found.includes(frame))).toEqual([]);
  expect(found).not.toEqual([]);
  expect(found.filter((frame) => frame < (3 - BESIDE) * GROUP)).toEqual([]);
});
