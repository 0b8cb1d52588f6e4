import { meanOf } from './within-subject.ts';

/** Mean squares of a table of things (rows) by rounds (columns), each thing measured once in each round. */
export interface MeanSquares {
  readonly things: number;
  readonly rounds: number;
  /** Between things, freedom things - 1. */
  readonly betweenThings: number;
  /** Between rounds, freedom rounds - 1. */
  readonly betweenRounds: number;
  /** What is left, freedom (things - 1)(rounds - 1). */
  readonly error: number;
  /** Within things, rounds and error together, freedom things x (rounds - 1). */
  readonly within: number;
}

/**
 * Two-way analysis of variance without repeats in a cell.
 * @throws Error unless there are two things and two rounds or more, all rows equally long, all values finite.
 */
export function analyseTwoWay(table: readonly (readonly number[])[]): MeanSquares {
  const things = table.length;
  const rounds = table[0]?.length ?? 0;
  if (things < 2 || rounds < 2) throw new Error('table: there must be two rows and two columns or more');
  if (table.some((row) => row.length !== rounds)) throw new Error('table: all rows must be equally long');
  if (table.some((row) => !row.every(Number.isFinite))) throw new Error('table: every value must be finite');
  const all = meanOf(table.flat());
  const rowMeans = table.map(meanOf);
  const columnMeans = Array.from({ length: rounds }, (_, column) => meanOf(table.map((row) => row[column] ?? all)));
  const squaresAbout = (means: readonly number[]) => means.reduce((sum, mean) => sum + (mean - all) ** 2, 0);
  let within = 0;
  let error = 0;
  table.forEach((row, i) => {
    row.forEach((value, j) => {
      const fromRow = value - (rowMeans[i] ?? all);
      within += fromRow ** 2;
      error += (fromRow - ((columnMeans[j] ?? all) - all)) ** 2;
    });
  });
  return {
    things,
    rounds,
    betweenThings: (rounds * squaresAbout(rowMeans)) / (things - 1),
    betweenRounds: (things * squaresAbout(columnMeans)) / (rounds - 1),
    error: error / ((things - 1) * (rounds - 1)),
    within: within / (things * (rounds - 1)),
  };
}

/**
 * Intraclass correlations after Shrout and Fleiss, Psychological Bulletin 86 (1979) 420-428: 1 at most, may be negative,
 * null where all values are one. The first number is their case, the second how many rounds the answer is the mean of.
 */
export interface Agreement {
  /** (1,1): rounds are not told apart. */
  readonly one: number | null;
  /** (2,1): a shift between rounds counts as disagreement. */
  readonly two: number | null;
  /** (3,1): a shift between rounds is left out. */
  readonly three: number | null;
  /** (1,k), (2,k), (3,k): of the mean of all rounds. */
  readonly oneOfMean: number | null;
  readonly twoOfMean: number | null;
  readonly threeOfMean: number | null;
}

export function intraclassCorrelations(of: MeanSquares): Agreement {
  const { things: n, rounds: k, betweenThings: r, betweenRounds: c, error: e, within: w } = of;
  const part = (above: number, below: number): number | null => (below === 0 ? null : above / below);
  return {
    one: part(r - w, r + (k - 1) * w),
    two: part(r - e, r + (k - 1) * e + (k * (c - e)) / n),
    three: part(r - e, r + (k - 1) * e),
    oneOfMean: part(r - w, r),
    twoOfMean: part(r - e, r + (c - e) / n),
    threeOfMean: part(r - e, r),
  };
}
