import { describe, expect, it, test } from 'vitest';
import { analyseTwoWay, intraclassCorrelations } from '../../core/measure/repeat/agreement.ts';
import {
  errorFromAgreement,
  limitsOfAgreement,
  repeatabilityOf,
  smallestRealChange,
} from '../../core/measure/repeat/measurement-error.ts';
import { withinSubject } from '../../core/measure/repeat/within-subject.ts';
import { within } from '../support/within.ts';

describe('P. Shrout, J. Fleiss, Psychological Bulletin 86 (1979) 420-428: 6 targets, 4 judges', () => {
  const RATINGS = [
    [9, 2, 5, 8],
    [6, 1, 3, 2],
    [8, 4, 6, 8],
    [7, 1, 2, 6],
    [10, 5, 6, 9],
    [6, 2, 4, 7],
  ];

  it('has the mean squares of the two-way table', () => {
    const squares = analyseTwoWay(RATINGS);
    // Recomputed from the printed data to seven figures: half a last digit.
    within(squares.betweenThings, 11.241667, 5e-7);
    within(squares.betweenRounds, 32.486111, 5e-7);
    within(squares.error, 1.019444, 5e-7);
    within(squares.within, 6.263889, 5e-7);
  });

  it('has the six intraclass correlations', () => {
    const icc = intraclassCorrelations(analyseTwoWay(RATINGS));
    const printed = [
      [icc.one, 0.17, 0.165742],
      [icc.two, 0.29, 0.289764],
      [icc.three, 0.71, 0.714841],
      [icc.oneOfMean, 0.44, 0.442797],
      [icc.twoOfMean, 0.62, 0.620051],
      [icc.threeOfMean, 0.91, 0.909316],
    ] as const;
    for (const [value, twoFigures, sixFigures] of printed) {
      // As printed, and as recomputed: half a last digit.
      within(value ?? Number.NaN, twoFigures, 0.005);
      within(value ?? Number.NaN, sixFigures, 5e-7);
    }
  });
});

describe('J. M. Bland, D. G. Altman, Lancet 1986;i:307-310: 17 subjects, two meters, each twice', () => {
  const wright1 = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427];
  const wright2 = [490, 397, 512, 401, 470, 611, 415, 431, 638, 429, 420, 633, 275, 492, 165, 372, 421];
  const mini1 = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];
  const mini2 = [525, 415, 508, 444, 500, 625, 460, 390, 642, 432, 420, 605, 227, 467, 268, 370, 443];
  const pairs = (first: readonly number[], second: readonly number[]) =>
    first.map((value, i) => [value, second[i] ?? Number.NaN]);

  it('the meters differ by -2.1 on average, limits -79.7 to 75.5', () => {
    const { mean, sd, limits } = limitsOfAgreement(wright1, mini1, 2);
    // Printed, from memory; the last limit was printed from a mean and a deviation that were rounded before.
    within(mean, -2.1, 0.05);
    within(sd, 38.8, 0.05);
    within(limits[0], -79.7, 0.06);
    within(limits[1], 75.5, 0.1);
    // Recomputed from the data: half a last digit.
    within(mean, -2.117647, 5e-7);
    within(sd, 38.76513, 5e-7);
    within(limits[0], -79.647907, 5e-7);
    within(limits[1], 75.412613, 5e-7);
    const ninetyFive = limitsOfAgreement(wright1, mini1, 1.96).limits;
    within(ninetyFive[0], -78.097302, 5e-7);
    within(ninetyFive[1], 73.862007, 5e-7);
  });

  it.each([
    ['the large meter', wright1, wright2, { sd: 15.306669, coefficient: 43.2938, printed: 43.2 }],
    ['the small meter', mini1, mini2, { sd: 19.910831, coefficient: 56.3163, printed: 56.4 }],
  ])('%s repeats with its within-subject deviation and coefficient', (_, first, second, expected) => {
    const spread = withinSubject(pairs(first, second));
    within(spread?.sd ?? Number.NaN, expected.sd, 5e-7);
    expect(spread?.freedom).toBe(17);
    const { repeatability } = limitsOfAgreement(first, second, 2);
    within(repeatability, expected.coefficient, 5e-5);
    // Printed, from memory; worked from rounded differences there, so a whole last digit.
    within(repeatability, expected.printed, 0.1);
  });

  it.each([
    ['the large meter', wright1, wright2, { icc: 0.983046, sem: 15.361215, change: 42.579 }],
    ['the small meter', mini1, mini2, { icc: 0.966905, sem: 20.415806, change: 56.59 }],
  ])('%s has the ICC, SEM and MDC95 recomputed from the data', (_, first, second, expected) => {
    const table = pairs(first, second);
    within(intraclassCorrelations(analyseTwoWay(table)).three ?? Number.NaN, expected.icc, 5e-7);
    const { sem, smallestChange, freedom } = repeatabilityOf(table);
    within(sem, expected.sem, 5e-7);
    within(smallestChange, expected.change, 5e-4);
    expect(freedom).toBe(16);
  });
});

test.each([
  [10.66, 29.55],
  [9.85, 27.3],
  [9.04, 25.06],
  [9.09, 25.2],
])('SEM %d degrees goes with a smallest real change of %d', (sem, change) => {
  // BMC Sports Sci Med Rehabil 2020, doi 10.1186/s13102-020-00179-8, Table 2. SEM is printed to half a hundredth, which
  // the factor 2.77 carries to 0.014; the change itself to 0.005.
  within(smallestRealChange(sem), change, 0.019);
});

test.each([
  [5, 0.9, 1.58114, 4.38269],
  [10, 0.95, 2.23607, 6.19806],
  [8, 0.75, 4, 11.08743],
])('SD %d and ICC %d give SEM %d and MDC95 %d', (sd, icc, sem, change) => {
  // Derived from SEM = SD sqrt(1 - ICC) and MDC95 = 1.96 sqrt(2) SEM: half a last digit.
  within(errorFromAgreement(sd, icc), sem, 5e-6);
  within(smallestRealChange(errorFromAgreement(sd, icc)), change, 5e-6);
});
