import { say } from '../model/say.ts';
import type { ClipIndex } from './clip-index.ts';
import { sameRatio } from './rational.ts';
import type { SpanPlan } from './span-plan.ts';

/**
 * What of a clip a shortened one does not have, in words for people, each as "its ..."; empty when it shows exactly the
 * planned frames, with the same gaps, the same way up.
 */
export function spanLosses(clip: ClipIndex, plan: Pick<SpanPlan, 'first' | 'last'>, kept: ClipIndex): string[] {
  const losses: string[] = [];
  const frames = clip.frames.slice(plan.first, plan.last + 1);
  const [start, keptStart] = [frames[0]?.pts ?? 0, kept.frames[0]?.pts ?? 0];
  if (kept.frames.length !== frames.length) losses.push(say`its number of frames`);
  else if (
    !sameRatio(clip.timebase, kept.timebase) ||
    frames.some(({ pts }, place) => pts - start !== (kept.frames[place]?.pts ?? Infinity) - keptStart)
  )
    losses.push(say`the times of its frames`);
  else if (frames.some(({ key }, place) => key !== kept.frames[place]?.key)) losses.push(say`its key pictures`);

  if (clip.width !== kept.width || clip.height !== kept.height) losses.push(say`its size`);
  if (clip.turn !== kept.turn) losses.push(say`its turn`);
  if (clip.mirrored !== kept.mirrored) losses.push(say`its mirroring`);
  if (!sameRatio(clip.pixelAspect, kept.pixelAspect)) losses.push(say`the shape of its pixels`);
  if (clip.dynamicRange !== kept.dynamicRange) losses.push(say`its dynamic range`);
  const [rate, keptRate] = [clip.captureRate?.framesPerSecond ?? null, kept.captureRate?.framesPerSecond ?? null];
  if (rate === null || keptRate === null ? rate !== keptRate : !sameRatio(rate, keptRate))
    losses.push(say`the capture rate that it tells`);
  return losses;
}
