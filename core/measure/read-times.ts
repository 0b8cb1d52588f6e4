import type { Reading, ReadingKey, ReadingNote, Unit } from '../model/reading.ts';
import type { MarkedClip } from '../model/swing.ts';
import { clockOf } from '../time/swing-clock.ts';
import type { TimedEntry } from './catalogue-entry.ts';
import { estimate } from './estimate.ts';
import { missing } from './missing.ts';
import { inOrder } from './read-placed.ts';
import type { Quantity } from './uncertain.ts';

/**
 * Makes one reading of time. A named frame stands for an instant anywhere within half its duration on either side:
 * rectangular, u = duration / sqrt(12). An instant that two spans share (the top, in tempo) is one input. Seconds are
 * those of the clip's clock: of the swing where the capture rate is known, else of the screen; a ratio of times is the same
 * in both.
 */
export function readTimed(entry: TimedEntry, key: ReadingKey, clip: MarkedClip): Reading {
  const unnamed = entry.spans.filter((checkpoint) => clip.checkpoints[checkpoint] === undefined);
  if (unnamed.length > 0) return missing(key, 'checkpoint-not-named', { checkpoints: unnamed });
  if (!inOrder(clip, entry.spans)) return missing(key, 'wrong-order');

  const { secondsATick, runs } = clockOf(clip);
  const quantities = entry.spans.map((checkpoint): Quantity => {
    const frame = clip.checkpoints[checkpoint];
    const u = ((frame?.ticks ?? 0) * secondsATick) / Math.sqrt(12);
    return { name: checkpoint, value: (frame?.pts ?? 0) * secondsATick, u, spread: 'rectangular', source: 'time' };
  });
  const result = estimate((times) => entry.compute(times), { quantities }, { kind: 'number' });
  if (result === null) return missing(key, 'wrong-order');
  const unit: Unit = entry.quantity === 'time-ratio' ? 'ratio' : runs === 'on screen' ? 's on screen' : 's';
  const notes: ReadingNote[] = [];
  if (unit === 's on screen') notes.push('capture-rate-unknown');
  if (unit === 's' && clip.captureRate?.confirmed === false) notes.push('capture-rate-unconfirmed');
  return { ...key, state: 'measured', ...result, unit, from: [], shapes: [], notes };
}
