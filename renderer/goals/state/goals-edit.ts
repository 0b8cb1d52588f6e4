import { say } from '../../../core/model/say.ts';
import { CATALOGUE } from '../../../core/measure/catalogue/catalogue.ts';
import { checkpointsOf, viewsOf } from '../../../core/measure/catalogue/where-read.ts';
import { missesOf } from '../../../core/measure/words/chain-words.ts';
import { OWN_SOURCE } from '../../../core/measure/goals/goals-source.ts';
import { unitsFor } from '../../../core/measure/catalogue/reading-units.ts';
import type { Chain, ChainLink, Tolerance, WantedRange } from '../../../core/model/goals.ts';
import type { Checkpoint } from '../../../core/model/words.ts';
import type { MeasuredReading, ReadingAspect, ReadingId, ReadingKey } from '../../../core/model/reading.ts';

/** Lists of goals with one entry changed, and what a new entry starts as. Pure. */

export function withEntry<T>(list: readonly T[], index: number, entry: T): readonly T[] {
  return list.map((each, place) => (place === index ? entry : each));
}

export function without<T>(list: readonly T[], index: number): readonly T[] {
  return list.filter((_, place) => place !== index);
}

/** Puts an entry in at a place; the ones from there on move up. */
export function withInserted<T>(list: readonly T[], index: number, entry: T): readonly T[] {
  return [...list.slice(0, index), entry, ...list.slice(index)];
}

/** Moves an entry by one place; beyond an end it stays. */
export function withMoved<T>(list: readonly T[], index: number, by: -1 | 1): readonly T[] {
  const entry = list[index];
  const to = index + by;
  if (entry === undefined || to < 0 || to >= list.length) return list;
  return withInserted(without(list, index), to, entry);
}

/** Takes a value out of a list, or puts it in where the order has it. */
export function withToggled<T>(list: readonly T[], value: T, order: readonly T[]): readonly T[] {
  const wanted = list.includes(value) ? list.filter((each) => each !== value) : [...list, value];
  return order.filter((each) => wanted.includes(each));
}

/** Wants nothing yet: limits and words are still to be given. */
export function newRange(reading: ReadingId): WantedRange {
  return {
    reading,
    aspect: firstAspect(reading),
    ...{ views: [], checkpoints: [], clubs: [], from: null, to: null },
    unit: unitsFor(reading)[0] ?? 'deg',
    ...{ words: '', basis: OWN_SOURCE, miss: { low: '', high: '' } },
  };
}

/**
 * A new range for a reading where it stands: at its checkpoint, in its view, with every club, in its own unit. Pixels and
 * times on screen mean another thing in each clip: of those it is in the reading's usual unit.
 */
export function newRangeFor(reading: ReadingKey & Pick<MeasuredReading, 'unit'>): WantedRange {
  const { id, aspect, view, checkpoint, unit } = reading;
  const usual = newRange(id);
  return {
    ...usual,
    ...{ aspect, views: [view], checkpoints: [checkpoint] },
    unit: unitsFor(id).includes(unit) ? unit : usual.unit,
  };
}

/** Of one of the reading's units that has none yet; null when all have. */
export function newTolerance(reading: ReadingId, list: readonly Tolerance[]): Tolerance | null {
  for (const aspect of CATALOGUE[reading].aspects)
    for (const unit of unitsFor(reading))
      if (!list.some((each) => each.reading === reading && each.aspect === aspect && each.unit === unit))
        return { reading, aspect, unit, within: 1 };
  return null;
}

export function newLink(reading: ReadingId): ChainLink {
  const view = viewsOf(reading)[0] ?? 'down-the-line';
  const checkpoints = checkpointsOf(reading, [view]);
  const aspect = firstAspect(reading);
  return {
    ...{ reading, aspect, words: '', view },
    checkpoint: checkpoints.includes('top') ? 'top' : (checkpoints[0] ?? 'top'),
    miss: missesOf({ reading, aspect })[0] ?? 'above-range',
  };
}

/** A link at another checkpoint: in its own view where the reading is made there, else in the other. */
export function linkAt({ reading, view }: ChainLink, checkpoint: Checkpoint): Pick<ChainLink, 'view' | 'checkpoint'> {
  const views = viewsOf(reading, [checkpoint]);
  return { checkpoint, view: views.includes(view) ? view : (views[0] ?? view) };
}

export function newChain(reading: ReadingId): Chain {
  return { name: say`New chain`, links: [newLink(reading)], leadsTo: '', basis: OWN_SOURCE };
}

function firstAspect(reading: ReadingId): ReadingAspect {
  return CATALOGUE[reading].aspects[0] ?? 'value';
}
