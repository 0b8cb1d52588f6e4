import { analyseTwoWay, intraclassCorrelations } from './agreement.ts';
import { meanOf, withinSubject } from './within-subject.ts';

/** Standard error of measurement from the spread between things and their agreement; `icc` <= 1. Weir 2005 (below). */
export function errorFromAgreement(sd: number, icc: number): number {
  if (!(sd >= 0) || !(icc <= 1)) throw new Error('error of measurement: sd must be 0 or more and icc at most 1');
  return sd * Math.sqrt(1 - icc);
}

/**
 * The smallest change between two measurements that their errors alone would exceed in only 5 % of cases: 1.96 sqrt(2)
 * SEM. J. P. Weir, J Strength Cond Res 19(1) 2005, 231-240.
 */
export function smallestRealChange(sem: number): number {
  return 1.96 * Math.SQRT2 * sem;
}

/** How well one reading repeats, in the reading's unit. */
export interface Repeatability {
  /** SEM, the root of the error's mean square; >= 0. */
  readonly sem: number;
  readonly freedom: number;
  /** MDC95. */
  readonly smallestChange: number;
  /** ICC(2,1): at most 1. null with one thing only, or where all values are one. */
  readonly icc: number | null;
  readonly things: number;
  readonly rounds: number;
}

/**
 * `table`: one row for each thing that was measured, one column a round, two rounds or more. SEM is the root of the
 * two-way error, which leaves out a shift that all things share between rounds (Weir 2005); of one thing alone it is the
 * within-subject standard deviation, since there shift and error cannot be told apart.
 */
export function repeatabilityOf(table: readonly (readonly number[])[]): Repeatability {
  const rounds = table[0]?.length ?? 0;
  if (table.length === 1) {
    const alone = withinSubject(table);
    if (alone === null) throw new Error('table: there must be two rounds or more');
    return stated(alone.sd, alone.freedom, null, 1, rounds);
  }
  const squares = analyseTwoWay(table);
  const freedom = (squares.things - 1) * (squares.rounds - 1);
  return stated(Math.sqrt(squares.error), freedom, intraclassCorrelations(squares).two, squares.things, rounds);
}

function stated(sem: number, freedom: number, icc: number | null, things: number, rounds: number): Repeatability {
  return { sem, freedom, smallestChange: smallestRealChange(sem), icc, things, rounds };
}

/** Two rounds set against each other, after Bland and Altman, Lancet 1986;i:307-310. In the unit of the values. */
export interface Limits {
  /** Mean of first - second. */
  readonly mean: number;
  /** Standard deviation of the differences, about their mean. */
  readonly sd: number;
  /** mean -+ `factor` sd. */
  readonly limits: readonly [number, number];
  /** `factor` sqrt(mean d^2), about 0 and not about the mean: for repeats by one hand, where there should be no shift. */
  readonly repeatability: number;
}

/** `factor`: 2 as in the paper, 1.96 for 95 %. @throws Error unless there are two pairs or more. */
export function limitsOfAgreement(first: readonly number[], second: readonly number[], factor: number): Limits {
  if (first.length !== second.length || first.length < 2)
    throw new Error('limits: there must be two pairs or more, and as many second values as first');
  const differences = first.map((value, i) => value - (second[i] ?? Number.NaN));
  if (!differences.every(Number.isFinite)) throw new Error('limits: every value must be finite');
  const mean = meanOf(differences);
  const about = differences.reduce((sum, d) => sum + (d - mean) ** 2, 0);
  const sd = Math.sqrt(about / (differences.length - 1));
  const repeatability = factor * Math.sqrt(meanOf(differences.map((d) => d * d)));
  return { mean, sd, limits: [mean - factor * sd, mean + factor * sd], repeatability };
}
