import type { Reading, ReadingKey, ReadingNote, Unit } from '../../model/reading.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { Checkpoint } from '../../model/words.ts';
import { clockOf } from '../../time/swing-clock.ts';
import type { TimedEntry } from '../catalogue/entry.ts';
import { outOfOrder } from './checkpoint-order.ts';
import { estimate } from '../uncertainty/estimate.ts';
import { missing } from './missing.ts';
import { namingError } from './naming.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';

/**
 * Makes one reading of time. A named frame stands for an instant anywhere within half its duration on either side:
 * rectangular, u = duration / sqrt(12). Which frame is named is unsure too (naming.ts): an input of its own. An instant that
 * two spans share (the top, in tempo) is one pair of inputs. Seconds are those of the clip's clock: of the swing where the
 * capture rate is known, else of the screen; a ratio of times is the same in both.
 */
export function readTimed(entry: TimedEntry, key: ReadingKey, clip: MarkedClip, placing: PlacingErrors): Reading {
  const unnamed = entry.spans.filter((checkpoint) => clip.checkpoints[checkpoint] === undefined);
  if (unnamed.length > 0) return missing(key, 'checkpoint-not-named', { checkpoints: unnamed });
  const crossed = outOfOrder(clip, orderOf(entry, clip));
  if (crossed !== null) return missing(key, 'wrong-order', { checkpoints: crossed });

  const { secondsATick, runs } = clockOf(clip);
  let assumed = false;
  const quantities = entry.spans.flatMap((checkpoint): readonly Quantity[] => {
    const frame = clip.checkpoints[checkpoint];
    if (frame === undefined) return [];
    const naming = namingError(clip, checkpoint, frame, placing.naming);
    assumed ||= naming.assumed;
    const within = (frame.ticks * secondsATick) / Math.sqrt(12);
    return [
      { name: checkpoint, value: frame.pts * secondsATick, u: within, spread: 'rectangular', source: 'time' },
      {
        ...{ name: `${checkpoint}, as it was named`, value: 0, u: naming.ticks * secondsATick, source: 'naming' },
        ...(naming.freedom === Infinity ? {} : { rests: { on: `naming ${checkpoint}`, freedom: naming.freedom } }),
      },
    ];
  });
  // Two inputs an event: the instant of its frame, and how far from that the meant one lies.
  const instants = (values: readonly number[]): readonly number[] =>
    entry.spans.map((_, i) => (values[2 * i] ?? Number.NaN) + (values[2 * i + 1] ?? Number.NaN));
  const result = estimate((values) => entry.compute(instants(values)), { quantities }, { kind: 'number' });
  if (result === null) return missing(key, 'wrong-order', { checkpoints: entry.spans.slice(-2) });
  const unit: Unit = entry.quantity === 'time-ratio' ? 'ratio' : runs === 'on screen' ? 's on screen' : 's';
  const notes: ReadingNote[] = [];
  if (assumed) notes.push('naming-assumed');
  if (unit === 's on screen') notes.push('capture-rate-unknown');
  if (unit === 's' && clip.captureRate?.confirmed === false) notes.push('capture-rate-unconfirmed');
  if (hasJump(clip, entry.spans)) notes.push('time-jump');
  return { ...key, state: 'measured', ...result, unit, from: [], shapes: [], notes };
}

/** What must come one after the other: a time from the takeaway on is none where address is named after it. */
function orderOf({ spans }: TimedEntry, { checkpoints }: MarkedClip): readonly Checkpoint[] {
  return spans[0] === 'takeaway' && checkpoints.address !== undefined ? ['address', ...spans] : spans;
}

/** Frames that a span may last longer than its frames before its time stamps are said to jump. Ours: no rounding reaches it. */
const JUMP = 0.75;

/**
 * Whether the time stamps between the named frames leave room for more frames than there are: some were dropped, or the clip
 * was cut. Frames are taken to last as long as most of the named ones do.
 */
function hasJump(clip: MarkedClip, spans: readonly Checkpoint[]): boolean {
  const lasting = Object.values(clip.checkpoints)
    .map(({ ticks }) => ticks)
    .toSorted((one, other) => one - other);
  const usual = lasting[Math.floor((lasting.length - 1) / 2)] ?? Infinity;
  return spans.slice(1).some((to, i) => {
    const [first, last] = [clip.checkpoints[spans[i] ?? to], clip.checkpoints[to]];
    if (first === undefined || last === undefined) return false;
    return last.pts - first.pts > (last.index - first.index + JUMP) * usual;
  });
}
