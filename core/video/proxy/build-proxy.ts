import { setImmediate as nextTurn } from 'node:timers/promises';
import { say } from '../../model/say.ts';
import { AppError } from '../../model/errors.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import { readClipFile } from '../index/clip-format.ts';
import { readIndexedSource } from '../index/clip-source.ts';
import type { ClipSource } from '../index/clip-source.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { processError } from '../process/run-ffmpeg.ts';
import type { ProcessEnd } from '../process/run-ffmpeg.ts';
import type { ProxyFile } from './proxy-file.ts';
import { startProxyPass } from './proxy-pass.ts';
import type { ProxySide } from './proxy-size.ts';
import type { ProxyPass } from './proxy-pass.ts';
import { unlessAborted } from '../process/unless-aborted.ts';

export interface ProxySource {
  readonly path: string;
  readonly ffmpeg: Ffmpeg;
}

export interface ProxyBuild {
  readonly signal: AbortSignal;
  /** Awaited before each picture is taken: until it settles, the pass stands still. */
  readonly giveWay?: (() => Promise<void>) | undefined;
  /** Called after each picture: how many are there, and how many the clip's table of frames lists. */
  readonly onFrame?: ((written: number, total: number) => void) | undefined;
}

export interface BuildPlace {
  /** Throws when there is no room for so many bytes. */
  ensureRoom(bytes: number): Promise<void>;
  /** Whether we are still the ones who write. */
  held(): Promise<boolean>;
}

/**
 * Makes the pictures that a copy lacks, from those it has on to the end of the clip. Returns whether it got there: false
 * when another process took over the copy meanwhile.
 *
 * A pass that goes on within a clip begins at the key picture before. That is a shortcut, taken only as long as the
 * decoder has nothing to say and begins exactly where the copy ends; else the clip is decoded from its first byte, and
 * what comes out is what one pass over all of it gives, whatever is wrong with the clip.
 *
 * Throws AppError: `cancelled`, `disk-full`, `not-writable`, `clip-damaged` when nothing at all can be decoded,
 * `ffmpeg-failed`, `ffmpeg-missing`, and as `readIndexedSource`.
 */
export async function buildProxy(
  file: ProxyFile,
  index: ClipIndex,
  { path, ffmpeg, longest }: ProxySource & { readonly longest: ProxySide },
  run: ProxyBuild,
  place: BuildPlace,
): Promise<boolean> {
  const before = await readClipFile(path);
  const source = await readIndexedSource(path, index, { ffmpeg, signal: run.signal });
  let mayEnter = !file.complained;
  for (;;) {
    const pass = startProxyPass(source, index, ffmpeg, { from: file.lastPts, mayEnter, longest, signal: run.signal });
    const came = await takeFrames(pass, file, index.frames.length, run, place).catch(async (error: unknown) => {
      await stopPass(pass);
      throw error;
    });
    if (came === 'lost') {
      await stopPass(pass);
      return false;
    }
    if (run.signal.aborted) {
      await stopPass(pass);
      // What was made so far is worth keeping; where that fails it is only made again.
      if (await place.held()) await file.flush(pass.run.complained()).catch(() => undefined);
      throw new AppError('cancelled', say`Cancelled.`);
    }
    if (came === 'astray' || came === 'broken') pass.run.stop();
    // One that came to the end of its output is left to end by itself, so that its exit code tells how it went.
    const end = await pass.run.end;
    const errors = pass.run.complained() || end.exitCode !== 0;
    if (pass.entered && (came !== 'ended' || errors)) {
      mayEnter = false;
      continue;
    }
    if (came !== 'ended' || endedByForce(end)) throw passError(source, end, ffmpeg);
    // A disk that was pulled out looks like a damaged clip; this tells them apart.
    const after = errors ? await readClipFile(path) : before;
    if (after.bytes !== before.bytes || after.modifiedMs !== before.modifiedMs)
      throw new AppError('clip-changed', say`${path} is not the clip it was; add it again.`, { detail: { path } });
    await place.ensureRoom(file.batch.bytes);
    if (!(await place.held())) return false;
    await file.flush(errors);
    await file.complete(errors);
    return true;
  }
}

async function stopPass(pass: ProxyPass): Promise<void> {
  pass.run.stop();
  await pass.run.end;
}

/**
 * Takes the pictures of a pass into the copy. `ended`: to the end of its output, or as far as it was let; `nothing`: that
 * held no picture; `broken`: it is no list of pictures; `astray`: the pass entered within the clip and does not continue
 * what is there; `lost`: the copy is another process's now.
 */
async function takeFrames(
  pass: ProxyPass,
  file: ProxyFile,
  total: number,
  { signal, giveWay, onFrame }: ProxyBuild,
  place: BuildPlace,
): Promise<'ended' | 'nothing' | 'broken' | 'astray' | 'lost'> {
  const from = file.lastPts;
  let came: 'ended' | 'nothing' = 'nothing';
  let joined = !pass.entered;
  for (;;) {
    if (giveWay !== undefined) await unlessAborted(giveWay(), signal);
    const next = await pass.frames.next().catch(() => null);
    // ffmpeg complains of a picture before it delivers it. One turn lets the complaint in, which comes by another pipe.
    await nextTurn();
    if (next === null) return 'broken';
    if (signal.aborted || next.done === true) return came;
    if (pass.entered && pass.run.complained()) return 'astray';
    came = 'ended';
    const frame = next.value;
    if (from !== null && frame.pts <= from) {
      joined ||= frame.pts === from;
      continue;
    }
    if (!joined) return 'astray';
    file.add(frame);
    if (file.batch.full) {
      await place.ensureRoom(file.batch.bytes);
      if (!(await place.held())) return 'lost';
      await file.flush(pass.run.complained());
    }
    onFrame?.(file.count, total);
  }
}

/** Whether something other than the clip ended ffmpeg: a signal, or on Windows a code beyond those that programs use. */
function endedByForce(end: ProcessEnd): boolean {
  return end.exitCode === null || end.exitCode < 0 || end.exitCode > 255;
}

function passError(source: ClipSource, end: ProcessEnd, ffmpeg: Ffmpeg): AppError {
  if (end.startError !== null || end.timedOut || endedByForce(end))
    return processError(end, say`ffmpeg stopped in the middle of ${source.path}; try again.`);
  if (/Unrecognized option|Option not found|No such filter|Unknown encoder/.test(end.stderrTail))
    return processError(
      end,
      say`This ffmpeg (${ffmpeg.version}) cannot be used; install ffmpeg 5 or newer with libx264.`,
    );
  return new AppError(
    'clip-damaged',
    say`No frame of ${source.path} can be decoded (${source.codec}). Copy it from the camera again. If that fails, set the camera to record H.264 (“most compatible”) and film again.`,
    { detail: { path: source.path, codec: source.codec, stderrTail: end.stderrTail } },
  );
}
