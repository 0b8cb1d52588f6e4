import { say } from '../model/say.ts';
import type { NoProposal, ProposedSwing } from '../model/proposal.ts';
import type { LumaClip } from '../propose/luma.ts';
import { motionBetween, smoothed } from '../propose/motion.ts';
import { heardWith, type Heard } from '../propose/heard-with.ts';
import { proposeSwing } from '../propose/propose-swing.ts';
import { soundOnsets } from '../propose/sound-onsets.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import { ticksToSeconds } from '../time/rational.ts';
import { slownessOf } from '../time/swing-clock.ts';
import { lumaSize, readLuma } from '../video/decode/read-luma.ts';
import { readSoundEnvelope } from '../video/decode/sound-envelope.ts';
import type { ReadOptions } from '../video/index/clip-source.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { stopIfCancelled, type JobContext } from './job-context.ts';

/** Enough lines to tell that a club moves, and to see a ball. */
const LINES = { motion: 180, ball: 400 } as const;

/**
 * Looks through a clip for its swing: once over all of it for motion, then sharper where it may turn round. Decodes every
 * picture once, and those about the swing once more.
 * @throws AppError as reading the clip may throw, and `cancelled`.
 */
export async function proposeClip(
  clip: { readonly path: string; readonly index: ClipIndex },
  ffmpeg: Ffmpeg,
  run: JobContext,
): Promise<ProposedSwing | NoProposal> {
  const { path, index } = clip;
  const last = index.frames.length - 1;
  const motion = new Array<number>(index.frames.length).fill(0);
  let before: Uint8Array | null = null;
  const whole = { ffmpeg, signal: run.signal, span: { from: 0, to: last }, lines: LINES.motion };
  for await (const { frame, samples } of readLuma(path, index, whole)) {
    if (before !== null) motion[frame] = motionBetween(before, samples);
    before = samples;
    run.report(say`Looking for the swing`, frame + 1, last + 1);
  }
  stopIfCancelled(run.signal);
  const heard = await witnessOf(path, index, { ffmpeg, signal: run.signal });
  const clipOf = async (from: number, to: number): Promise<LumaClip> => {
    const found = new Map<number, Uint8Array>();
    const span = { from, to };
    for await (const { frame, samples } of readLuma(path, index, { ...whole, span, lines: LINES.ball }))
      found.set(frame, samples);
    const size = lumaSize(index, LINES.ball);
    let latest: Uint8Array = new Uint8Array(size.width * size.height);
    // A frame without a picture shows what the one before it showed.
    const pictures = Array.from({ length: to - from + 1 }, (_, at) => (latest = found.get(from + at) ?? latest));
    return {
      ...size,
      ...{ from, to: to + 1 },
      at(frame) {
        const picture = pictures[frame - from];
        if (picture === undefined)
          throw new Error(`frame ${String(frame)} is not among ${String(from)} to ${String(to)}`);
        return picture;
      },
    };
  };
  return proposeSwing(smoothed(motion), clipOf, heard);
}

/** What the clip's sound says of an impact on a frame; of a clip without sound nothing. */
async function witnessOf(path: string, index: ClipIndex, how: ReadOptions): Promise<(impact: number) => Heard> {
  const sound = await readSoundEnvelope(path, index, how);
  if (sound === null) return () => 'nothing';
  const [onsets, slowness] = [soundOnsets(sound), slownessOf(index)];
  return (impact) => {
    const [last, next] = [index.frames[impact], index.frames[impact + 1] ?? index.frames[impact]];
    if (last === undefined || next === undefined) return 'nothing';
    const from = ticksToSeconds(last.pts, index.timebase);
    return heardWith(onsets, { from, to: ticksToSeconds(next.pts + next.ticks, index.timebase) }, slowness);
  };
}
