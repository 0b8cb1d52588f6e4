import { say } from '../../model/say.ts';
import { AppError } from '../../model/errors.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import { frameWithPts } from '../../time/frame-table.ts';
import { readClipFile } from '../index/clip-format.ts';
import { readIndexedSource } from '../index/clip-source.ts';
import type { ClipSource } from '../index/clip-source.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { processError } from '../process/run-ffmpeg.ts';
import type { ProcessEnd } from '../process/run-ffmpeg.ts';
import type { DecoderChoice } from '../decode/hardware-decoder.ts';
import type { HardwareTrials } from '../decode/hardware-trials.ts';
import { buildParts } from './build-parts.ts';
import type { PartsMade } from './build-parts.ts';
import { partStarts } from './copy-order.ts';
import { endedByForce, flush, isPrefix, keepAndCancel, owning, readNext, stopPass } from './copy-work.ts';
import type { BuildPlace, CopyWork, ProxyBuild } from './copy-work.ts';
import type { ProxyFile } from './proxy-file.ts';
import { startProxyPass } from './proxy-pass.ts';
import type { ProxyPass } from './proxy-pass.ts';
import type { ProxySide } from './proxy-size.ts';

export interface ProxySource {
  readonly path: string;
  readonly ffmpeg: Ffmpeg;
  /** Which hardware may decode it; the software does when not given. */
  readonly decoders?: Pick<HardwareTrials, 'chosen' | 'refuse'> | undefined;
}

/**
 * Makes the pictures that a copy lacks: the parts of the clip that are looked at first, then the others. Returns whether it
 * got to the end: false when another process took over the copy meanwhile.
 *
 * A pass that begins within a clip enters at the key picture before. That is a shortcut, taken only as long as the decoder
 * has nothing to say and delivers exactly the frames of the clip's table. A picture counts only once the one behind it in
 * the table has come, so nothing hides between two parts. Else the clip is decoded from its first byte, and what comes out
 * is what one pass over all of it gives, whatever is wrong with the clip; always by software.
 *
 * Throws AppError: `cancelled`, `disk-full`, `not-writable`, `clip-damaged` when nothing at all can be decoded,
 * `clip-changed`, `ffmpeg-failed`, `ffmpeg-missing`, and as `readIndexedSource`.
 */
export async function buildProxy(
  file: ProxyFile,
  index: ClipIndex,
  { path, ffmpeg, longest, decoders }: ProxySource & { readonly longest: ProxySide },
  run: ProxyBuild,
  place: BuildPlace,
): Promise<boolean> {
  const before = await readClipFile(path);
  const requireSame = async (): Promise<void> => {
    const after = await readClipFile(path);
    if (after.bytes !== before.bytes || after.modifiedMs !== before.modifiedMs)
      throw new AppError('clip-changed', say`${path} is not the clip it was; add it again.`, { detail: { path } });
  };
  const source = await readIndexedSource(path, index, { ffmpeg, signal: run.signal });
  const workBy = (decoder: DecoderChoice | null): CopyWork => ({
    ...{ file, index, run, place },
    startPass: (from, enterFor) =>
      startProxyPass(source, index, ffmpeg, { from, enterFor, longest, decoder, signal: run.signal }),
  });
  const work = workBy(null);
  const starts = partStarts(index, source.format);
  const hasParts = starts.length > 1;
  if (hasParts && !file.complained) {
    const hardware = (await decoders?.chosen(ffmpeg, source)) ?? null;
    let made = await buildParts(workBy(hardware), starts);
    if (hardware !== null && hasFailed(made)) {
      await decoders?.refuse(ffmpeg, source);
      if (!(await place.held())) return false;
      // What a decoder made before it failed is not relied on.
      await file.startOver(false);
      made = await buildParts(work, starts);
    }
    if (made.came === 'lost') return false;
    // A disk that was pulled out looks like a damaged clip; this tells them apart.
    await requireSame();
    if (made.came === 'failed') throw passError(source, made.end, ffmpeg);
    if (made.came === 'whole') return finish(work, { errors: false, complained: false });
    return buildFromStart(work, source, ffmpeg, {
      anew: !isPrefix(work),
      complained: true,
      mayEnter: false,
      requireSame,
    });
  }
  const mayEnter = !file.complained;
  return buildFromStart(work, source, ffmpeg, { anew: false, complained: hasParts, mayEnter, requireSame });
}

/** Whether that may be the decoder's fault. */
function hasFailed(made: PartsMade): boolean {
  return made.came === 'astray' || (made.came === 'failed' && made.end.startError === null);
}

/**
 * Goes on from the latest picture, or begins `anew` once the first picture has come: what is there of the clip's middle
 * would hide what a pass from its start has to say. `complained` as the list of pictures tells it.
 */
async function buildFromStart(
  work: CopyWork,
  source: ClipSource,
  ffmpeg: Ffmpeg,
  how: {
    readonly anew: boolean;
    readonly complained: boolean;
    readonly mayEnter: boolean;
    readonly requireSame: () => Promise<void>;
  },
): Promise<boolean> {
  const { file, index, run } = work;
  const { anew, complained, requireSame } = how;
  let { mayEnter } = how;
  for (;;) {
    const from = anew ? null : file.lastPts;
    const pass = work.startPass(from, from === null || !mayEnter ? null : frameWithPts(index, from));
    const came = await owning(pass, takeFrames(pass, work, from, how));
    if (came === 'lost') {
      await stopPass(pass);
      return false;
    }
    if (run.signal.aborted) return keepAndCancel(work, pass, complained);
    if (came === 'astray' || came === 'broken') pass.run.stop();
    // One that came to the end of its output is left to end by itself, so that its exit code tells how it went.
    const end = await pass.run.end;
    const errors = pass.run.complained() || end.exitCode !== 0;
    if (pass.entered && (came !== 'ended' || errors)) {
      mayEnter = false;
      continue;
    }
    if (came !== 'ended' || endedByForce(end)) throw passError(source, end, ffmpeg);
    if (errors) await requireSame();
    return finish(work, { errors, complained: complained || errors });
  }
}

async function finish(
  work: CopyWork,
  { errors, complained }: { readonly errors: boolean; readonly complained: boolean },
): Promise<boolean> {
  if (!(await flush(work, complained))) return false;
  await work.file.complete(errors);
  return true;
}

/**
 * Takes the pictures of a pass into the copy, those later than `from`. `ended`: to the end of its output, or as far as it was
 * let; `nothing`: that held no picture; `broken`: it is no list of pictures; `astray`: the pass entered within the clip and
 * does not continue what is there; `lost`: the copy is another process's now.
 */
async function takeFrames(
  pass: ProxyPass,
  work: CopyWork,
  from: number | null,
  { anew, complained }: { readonly anew: boolean; readonly complained: boolean },
): Promise<'ended' | 'nothing' | 'broken' | 'astray' | 'lost'> {
  const { file, run, place } = work;
  let came: 'ended' | 'nothing' = 'nothing';
  let joined = !pass.entered;
  for (;;) {
    const next = await readNext(pass, run);
    if (next === null) return 'broken';
    if (run.signal.aborted || next.done === true) return came;
    if (pass.entered && pass.run.complained()) return 'astray';
    if (anew && came === 'nothing') {
      if (!(await place.held())) return 'lost';
      await file.startOver(true);
    }
    came = 'ended';
    const frame = next.value;
    if (from !== null && frame.pts <= from) {
      joined ||= frame.pts === from;
      continue;
    }
    if (!joined) return 'astray';
    file.add(frame);
    if (file.batch.full && !(await flush(work, complained || pass.run.complained()))) return 'lost';
    run.onFrame?.(file.count, work.index.frames.length);
  }
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
