import { say } from '../model/say.ts';
import type { SwingOfClip } from '../model/proposal.ts';
import { findSwings, type SessionPicture } from '../propose/find-swings.ts';
import { soundOnsets } from '../propose/sound-onsets.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import { ticksToSeconds } from '../time/rational.ts';
import { slownessOf } from '../time/swing-clock.ts';
import { cutAbout } from '../time/swing-cut.ts';
import { lumaSize, readLuma } from '../video/decode/read-luma.ts';
import { readSoundEnvelope } from '../video/decode/sound-envelope.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { stopIfCancelled, type JobContext } from './job-context.ts';

/** Enough lines to see a ball, and enough pictures in a second of the swing to see a club come down. */
const LINES = 400;
const RATE = 30;

/**
 * Looks for all swings of a clip from a camera that was left running. Decodes the clip once and keeps nothing.
 *
 * @throws AppError as reading the clip may throw, and `cancelled`.
 */
export async function swingsOfClip(
  { path, index }: { readonly path: string; readonly index: ClipIndex },
  ffmpeg: Ffmpeg,
  { signal, report }: JobContext,
): Promise<readonly SwingOfClip[]> {
  const { frames, timebase } = index;
  const last = frames.length - 1;
  const secondsOf = (frame: number): number => ticksToSeconds(frames[frame]?.pts ?? 0, timebase);
  const sound = await readSoundEnvelope(path, index, { ffmpeg, signal });
  const slowness = slownessOf(index);
  const rate = (slowness * last) / Math.max(1e-3, secondsOf(last) - secondsOf(0));
  const every = Math.max(1, Math.floor(rate / RATE));
  async function* pictures(): AsyncGenerator<SessionPicture> {
    const order = { ffmpeg, signal, span: { from: 0, to: last }, lines: LINES, every };
    for await (const { frame, samples } of readLuma(path, index, order)) {
      report(say`Looking for swings`, frame + 1, last + 1);
      yield { frame, samples, seconds: secondsOf(frame) };
    }
  }
  const onsets = sound === null ? null : soundOnsets(sound);
  const facts = { ...lumaSize(index, LINES), rate: rate / every, onsets, slowness };
  const found = await findSwings(pictures(), facts);
  stopIfCancelled(signal);
  return found.map((swing) => ({ ...swing, span: cutAbout(index, swing.impact) }));
}
