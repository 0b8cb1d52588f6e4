import type { SoundOnset } from './sound-onsets.ts';

/** Sound comes 2.9 ms late a metre (343 m/s at 20 degrees): from up to 15 m off, by two bins of loudness. */
const LATEST = 15 / 343 + 0.01;
/** A strike is short and loud: this part of the loudest sound of the clip, at least. */
const LOUD = 0.3;
/** It cannot be heard before it happens, but for a bin of loudness; what is heard so long before was another one, seconds. */
const BEFORE = { least: 0.01, most: 0.3 } as const;

/** What the sound says of an impact that the picture shows. */
export type Heard = 'with it' | 'before it' | 'nothing';

/**
 * Whether a strike is heard with an impact: one witness among others, which never says when it was. It may come late (a recorder
 * of its own, an echo) or be missing, which says nothing. Heard before the ball has gone, and not with it, it speaks against it.
 *
 * @param seconds from when to when the ball may have gone, on the clip's clock: the last frame with it, and the end of the next
 * @param slowness seconds of the clip in which one of the swing passes, >= 1; what is heard of slowed pictures is no witness
 */
export function heardWith(
  onsets: readonly SoundOnset[],
  { from, to }: { readonly from: number; readonly to: number },
  slowness: number,
): Heard {
  if (slowness !== 1) return 'nothing';
  const loud = onsets.filter(({ loudness }) => loudness >= LOUD * 255).map((onset) => onset.seconds);
  if (loud.some((at) => at >= from - BEFORE.least && at <= to + LATEST)) return 'with it';
  return loud.some((at) => at >= from - BEFORE.most && at < from - BEFORE.least) ? 'before it' : 'nothing';
}
