import type { ReadingId } from '../../model/reading.ts';
import type { CatalogueEntry } from './entry.ts';
import { ARC_ENTRIES } from './arc.ts';
import { GROUND_ENTRIES } from './ground.ts';
import { HEAD_ENTRIES } from './head.ts';
import { LENGTH_ENTRIES } from './lengths.ts';
import { LINE_ENTRIES } from './lines.ts';
import { SHIFT_ENTRIES } from './shifts.ts';
import { TIME_ENTRIES } from './times.ts';

export type { CatalogueEntry } from './entry.ts';

/** One entry for every reading: what it is called, where it is read, from what and how, what it can be, what is drawn. */
export const CATALOGUE: Readonly<Record<ReadingId, CatalogueEntry>> = {
  ...LINE_ENTRIES,
  ...SHIFT_ENTRIES,
  ...HEAD_ENTRIES,
  ...LENGTH_ENTRIES,
  ...ARC_ENTRIES,
  ...GROUND_ENTRIES,
  ...TIME_ENTRIES,
};
