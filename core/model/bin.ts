/** What can be removed, and put back as long as it lies in the bin. */
export const BIN_KINDS = ['student', 'lesson', 'swing', 'clip'] as const;
export type BinKind = (typeof BIN_KINDS)[number];

export interface BinEntry {
  readonly id: string;
  readonly kind: BinKind;
  /** What it was called, with whom and what it belonged to. */
  readonly name: string;
  /** An instant of UTC, ISO 8601 with milliseconds. */
  readonly removedAt: string;
}

/** How long things stay in the bin. */
export const BIN_DAYS = 30;
