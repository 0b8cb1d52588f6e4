import { describe, expect, it } from 'vitest';
import { leastSquares } from '../../../core/geometry/least-squares.ts';
import {
  entry,
  invert,
  multiply,
  solve,
  symmetricEigen,
  timesVector,
  transpose,
} from '../../../core/geometry/linear.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import { within } from '../../support/within.ts';

const SEED = 2718;

function randomMatrix(size: number, numbers = seeded(SEED)): number[][] {
  return Array.from({ length: size }, () => Array.from({ length: size }, () => numbers.normal()));
}

describe('linear systems', () => {
  it('are solved: A x gives b back', () => {
    for (let size = 1; size <= 9; size += 1) {
      const a = randomMatrix(size, seeded(SEED + size));
      const b = a.map((_, i) => i - 1.5);
      const x = solve(a, b) ?? [];
      // 9 unknowns of size 1 with conditions below some hundred: rounding stays below 1e-11.
      timesVector(a, x).forEach((value, i) => within(value, b[i] ?? Number.NaN, 1e-11));
    }
  });

  it('have a worked answer: x + y = 3, x - y = 1 gives 2 and 1, also where the first pivot is 0', () => {
    expect(
      solve(
        [
          [1, 1],
          [1, -1],
        ],
        [3, 1],
      ),
    ).toEqual([2, 1]);
    expect(
      solve(
        [
          [0, 2],
          [3, 0],
        ],
        [4, 9],
      ),
    ).toEqual([3, 2]);
  });

  it('without an answer are refused: rows that are multiples, and zeros', () => {
    expect(
      solve(
        [
          [1, 2],
          [2, 4],
        ],
        [1, 2],
      ),
    ).toBeNull();
    expect(
      invert([
        [0, 0],
        [0, 0],
      ]),
    ).toBeNull();
    expect(
      invert([
        [1, 2, 3],
        [4, 5, 6],
        [7, 8, 9],
      ]),
    ).toBeNull();
  });

  it('must be square', () => {
    expect(() => solve([[1, 2]], [1])).toThrow('square');
    expect(() => entry([[1]], 0, 1)).toThrow('no entry');
  });

  it('an inverse undoes', () => {
    const a = randomMatrix(6);
    const product = multiply(a, invert(a) ?? []);
    product.forEach((row, i) => row.forEach((value, j) => within(value, i === j ? 1 : 0, 1e-11)));
  });
});

describe('a symmetric matrix', () => {
  it('is put together again from its eigenvalues and vectors, which are at right angles', () => {
    const half = randomMatrix(7);
    const matrix = multiply(half, transpose(half));
    const { values, vectors } = symmetricEigen(matrix);
    const scaled = vectors.map((vector, i) => vector.map((value) => value * (values[i] ?? Number.NaN)));
    multiply(transpose(vectors), scaled).forEach((row, i) =>
      row.forEach((value, j) => within(value, entry(matrix, i, j), 1e-11)),
    );
    multiply(vectors, transpose(vectors)).forEach((row, i) =>
      row.forEach((value, j) => within(value, i === j ? 1 : 0, 1e-12)),
    );
    expect([...values].sort((a, b) => b - a)).toEqual(values);
  });

  it('has worked eigenvalues: 2 1 / 1 2 has 3 and 1', () => {
    const { values, vectors } = symmetricEigen([
      [2, 1],
      [1, 2],
    ]);
    within(values[0] ?? Number.NaN, 3, 1e-15);
    within(values[1] ?? Number.NaN, 1, 1e-15);
    within(Math.abs(entry(vectors, 0, 0)), Math.SQRT1_2, 1e-15);
  });
});

describe('least squares', () => {
  it('find what made the data: y = 3 exp(-x / 2)', () => {
    const x = [0, 1, 2, 3, 4, 5];
    const fit = leastSquares(
      ([a = 0, b = 0]) => x.map((at) => a * Math.exp(-b * at) - 3 * Math.exp(-at / 2)),
      [1, 1],
      [1, 1],
    );
    within(fit?.parameters[0] ?? Number.NaN, 3, 1e-9);
    within(fit?.parameters[1] ?? Number.NaN, 0.5, 1e-9);
  });

  it('of a straight line have the covariance of the textbook: s^2 / n for the middle, s^2 / Sxx for the slope', () => {
    const x = [-2, -1, 0, 1, 2];
    const fit = leastSquares(([a = 0, b = 0]) => x.map((at) => a + b * at - at), [0, 0], [1, 1]);
    // n = 5 and Sxx = 4 + 1 + 0 + 1 + 4 = 10.
    within(entry(fit?.covariance ?? [], 0, 0), 1 / 5, 1e-9);
    within(entry(fit?.covariance ?? [], 1, 1), 1 / 10, 1e-9);
    within(entry(fit?.covariance ?? [], 0, 1), 0, 1e-9);
  });

  it('that are not determined say so: a parameter that changes nothing has no covariance', () => {
    const fit = leastSquares(([a = 0]) => [a - 1, a + 1], [5, 7], [1, 1]);
    expect(fit?.covariance).toBeNull();
    within(fit?.parameters[0] ?? Number.NaN, 0, 1e-6);
  });

  it('are nothing where the start has no residuals', () => {
    expect(leastSquares(() => null, [1], [1])).toBeNull();
  });
});
