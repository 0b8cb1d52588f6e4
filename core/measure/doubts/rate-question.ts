import { say } from '../../model/say.ts';
import type { Ratio } from '../../model/frame.ts';
import type { MarkedClip } from '../../model/swing.ts';
import { TIME_ENTRIES } from '../catalogue/times.ts';
import { formatReading } from '../words/format.ts';
import { ASSUMED_PLACING } from '../uncertainty/placing.ts';
import { isImplausible } from './plausible.ts';
import { readTimed } from '../readings/read-times.ts';

/**
 * What to ask of a capture rate before it is taken: a downswing that it makes longer or shorter than swings are (with all of
 * its ±) speaks against the rate. null where it does not, or where top and impact are not named yet.
 */
export function rateQuestion(clip: MarkedClip, framesPerSecond: Ratio): string | null {
  const filmed: MarkedClip = { ...clip, captureRate: { framesPerSecond, confirmed: true } };
  const key = { id: 'downswing', aspect: 'value', view: clip.view, checkpoint: 'impact' } as const;
  const reading = readTimed(TIME_ENTRIES.downswing, key, filmed, ASSUMED_PLACING);
  if (reading.state === 'missing' || !isImplausible(reading)) return null;
  const { text } = formatReading(reading);
  return reading.value > USUAL
    ? say`At this rate the downswing takes ${text}, which is very long. Check the camera's setting, and the frames of top and impact.`
    : say`At this rate the downswing takes ${text}, which is very short. Check the camera's setting, and the frames of top and impact.`;
}

/** Between the longest and the shortest that is taken as it is, seconds: tells which of the two it is beyond. */
const USUAL = 0.25;
