import type { ReadingAspect, ReadingId, Unit } from './reading.ts';
import type { Checkpoint, View } from './words.ts';

/**
 * The coach's own list of what is wanted: ranges for readings with what a miss does to the strike, tolerances, and chains
 * of cause and effect. Every text is the coach's own; nothing in here is worked out by the program.
 */
export interface Goals {
  readonly name: string;
  /** What this list is and is not, for people. */
  readonly about: string;
  readonly wanted: readonly WantedRange[];
  readonly tolerances: readonly Tolerance[];
  readonly chains: readonly Chain[];
}

/** Where a reading is wanted to lie. */
export interface WantedRange {
  /** null: wanted in the trade, but no reading measures it yet. */
  readonly reading: ReadingId | null;
  readonly aspect: ReadingAspect;
  /** Views it holds in; empty = every view the reading is made in. */
  readonly views: readonly View[];
  /** Checkpoints it holds at; empty = wherever the reading is made. */
  readonly checkpoints: readonly Checkpoint[];
  /** Clubs it holds for, by the name a lesson has, in whichever case; empty = every club. */
  readonly clubs: readonly string[];
  /** Inclusive, in `unit` (a limit of 0 holds in every unit of the reading); null = no limit. Both null: words alone. */
  readonly from: number | null;
  readonly to: number | null;
  readonly unit: Unit;
  readonly words: string;
  /** Where the range comes from, in words; empty = not said. `measure/goals-source.ts` says when a change ends it. */
  readonly basis: string;
  /** What a miss does to the strike; empty = nothing is said. */
  readonly miss: MissWords;
}

export interface MissWords {
  /** For a reading below `from`. */
  readonly low: string;
  /** For a reading above `to`. */
  readonly high: string;
}

/** A difference smaller than `within` counts as no difference in practice. */
export interface Tolerance {
  readonly reading: ReadingId;
  readonly aspect: ReadingAspect;
  readonly unit: Unit;
  /** In `unit`, > 0. */
  readonly within: number;
}

/** Readings that hang together in the coach's eyes, the cause before what it brings about. */
export interface Chain {
  readonly name: string;
  /** One or more. */
  readonly links: readonly ChainLink[];
  /** What comes of it, as a rule at the strike. It is said, not measured. */
  readonly leadsTo: string;
  /** Where the chain comes from, as of a range. */
  readonly basis: string;
}

/**
 * Which side of a reading is the miss. below-range, above-range: beyond that limit of its wanted range. minus, plus: the
 * sign of the reading; of a ratio, below or above 1. moved-down, moved-up: since then it moved, to a smaller or larger
 * number.
 */
export const LINK_MISSES = ['below-range', 'above-range', 'minus', 'plus', 'moved-down', 'moved-up'] as const;
export type LinkMiss = (typeof LINK_MISSES)[number];

export interface ChainLink {
  readonly reading: ReadingId;
  readonly aspect: ReadingAspect;
  readonly view: View;
  readonly checkpoint: Checkpoint;
  readonly miss: LinkMiss;
  /** What the miss is, in the coach's own words. */
  readonly words: string;
}

/** The version this program writes. Files with a higher one are refused, lower ones are read. */
export const GOALS_FILE_VERSION = 1;

/** Goals outside the book, as JSON. Described for others by resources/goals.schema.json. */
export interface GoalsFile extends Goals {
  /** The word that the first files had; it stays, so that old and new programs read one another's. */
  readonly format: 'baybook-pattern';
  readonly version: number;
}

/** The goals of a book as they were read. */
export interface ReadGoals {
  readonly goals: Goals;
  /** Whether they are those that ship with the program: the book has none of its own, or some that cannot be read. */
  readonly shipped: boolean;
  /** Those that ship with the program, whichever are in use: what the coach changed is told from them. */
  readonly shippedGoals: Goals;
  /** What the coach must know: a sentence, or null. */
  readonly trouble: string | null;
}
