import { sameReading } from '../../model/reading.ts';
import type { Comparison, MeasuredReading, MissingReading, Reading, ReadingKey } from '../../model/reading.ts';
import type { Chain, ChainLink, LinkMiss, Goals, WantedRange } from '../../model/goals.ts';
import { isOfUse } from '../doubts/of-use.ts';
import { wantedOf } from './goals.ts';

/**
 * seen: all of the reading's 95 % interval lies on the miss side. not seen: all of it lies on the other side. The limit
 * itself belongs to the other side, as it belongs to a goal. too close to call: it lies on both. not measured: there is
 * nothing to hold against the limit.
 */
export const LINK_STATES = ['seen', 'not seen', 'too close to call', 'not measured'] as const;
export type LinkState = (typeof LINK_STATES)[number];

/** What is lacking where a link is not measured. */
export type LinkNeed =
  | { readonly kind: 'reading'; readonly reading: MissingReading }
  /** The checkpoint is not named in the clip of that view, or there is no such clip. */
  | { readonly kind: 'frame' }
  /** The number is worth nothing. */
  | { readonly kind: 'of-no-use'; readonly reading: MeasuredReading }
  /** The goals want nothing on that side of the reading. */
  | { readonly kind: 'range' }
  /** The limit is in another unit than the reading. */
  | { readonly kind: 'unit'; readonly wanted: WantedRange }
  | { readonly kind: 'then' };

export interface EvaluatedLink {
  readonly link: ChainLink;
  readonly state: LinkState;
  /** The reading it rests on, also where that cannot be held against anything. */
  readonly reading: MeasuredReading | null;
  /** null unless the state is `not measured`. */
  readonly need: LinkNeed | null;
}

export interface EvaluatedChain {
  readonly chain: Chain;
  readonly links: readonly EvaluatedLink[];
  /** How many links are seen one after another from the first on, 0 to all. What is seen beyond a break is not counted. */
  readonly holds: number;
}

/** What a swing says: its readings, and with an earlier swing what can be compared, else null. */
export interface ChainReadings {
  readonly readings: readonly Reading[];
  readonly comparisons: readonly Comparison[] | null;
  readonly club: string;
}

/** Holds the links of a chain against a swing, one by one. Says what goes together, never what brings about what. */
export function evaluateChain(chain: Chain, goals: Goals, swing: ChainReadings): EvaluatedChain {
  const links = chain.links.map((link) => evaluateLink(link, goals, swing));
  const broken = links.findIndex(({ state }) => state !== 'seen');
  return { chain, links, holds: broken === -1 ? links.length : broken };
}

export function keyOfLink({ reading, aspect, view, checkpoint }: ChainLink): ReadingKey {
  return { id: reading, aspect, view, checkpoint };
}

function evaluateLink(link: ChainLink, goals: Goals, swing: ChainReadings): EvaluatedLink {
  const key = keyOfLink(link);
  const reading = swing.readings.find((each) => sameReading(each, key));
  const lacking = (need: LinkNeed, measured: MeasuredReading | null = null): EvaluatedLink => ({
    ...{ link, state: 'not measured', reading: measured, need },
  });
  if (reading === undefined) return lacking({ kind: 'frame' });
  if (reading.state === 'missing') return lacking({ kind: 'reading', reading });
  if (!isOfUse(reading)) return lacking({ kind: 'of-no-use', reading }, reading);
  const found = stateOf(link.miss, reading, wantedOf(goals, key, swing.club), swing.comparisons);
  return typeof found === 'string' ? { link, state: found, reading, need: null } : lacking(found, reading);
}

function stateOf(
  miss: LinkMiss,
  reading: MeasuredReading,
  wanted: WantedRange | null,
  comparisons: readonly Comparison[] | null,
): LinkState | LinkNeed {
  switch (miss) {
    case 'below-range':
    case 'above-range': {
      const limit = miss === 'below-range' ? wanted?.from : wanted?.to;
      if (wanted === null || limit === null || limit === undefined) return { kind: 'range' };
      if (limit !== 0 && wanted.unit !== reading.unit) return { kind: 'unit', wanted };
      return beyond(reading.interval, limit, miss === 'below-range' ? 'below' : 'above');
    }
    case 'minus':
    case 'plus':
      return beyond(reading.interval, turningPoint(reading), miss === 'minus' ? 'below' : 'above');
    case 'moved-down':
    case 'moved-up': {
      const comparison = comparisons?.find((each) => sameReading(each, reading));
      if (comparison === undefined) return { kind: 'then' };
      if (comparison.verdict === "can't tell") return 'too close to call';
      const side = comparison.difference < 0 ? 'moved-down' : 'moved-up';
      return comparison.verdict !== 'no change' && side === miss ? 'seen' : 'not seen';
    }
  }
}

/** Where a reading changes its side: ratios are to what was at address, 1; all else has a sign. */
function turningPoint({ unit, aspect }: MeasuredReading): number {
  return unit === 'ratio' && aspect === 'value' ? 1 : 0;
}

function beyond([low, high]: readonly [number, number], limit: number, side: 'below' | 'above'): LinkState {
  if (side === 'below' ? high < limit : low > limit) return 'seen';
  return (side === 'below' ? low >= limit : high <= limit) ? 'not seen' : 'too close to call';
}
