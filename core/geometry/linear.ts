/**
 * The little linear algebra that fits need, on plain lists of rows. Matrices are small (a homography has nine unknowns) and
 * rows are the outer list; nothing here changes what it is given. Wrong shapes are a mistake of ours and throw.
 */
export type Vector = readonly number[];
export type Matrix = readonly (readonly number[])[];

/** The entry of row i and column j; throws when there is none. */
export function entry(matrix: Matrix, i: number, j: number): number {
  const value = matrix[i]?.[j];
  if (value === undefined) throw new Error(`linear: there is no entry ${String(i)}, ${String(j)}`);
  return value;
}

export function transpose(matrix: Matrix): number[][] {
  return (matrix[0] ?? []).map((_, j) => matrix.map((_row, i) => entry(matrix, i, j)));
}

export function multiply(a: Matrix, b: Matrix): number[][] {
  return a.map((row) => (b[0] ?? []).map((_, j) => row.reduce((sum, value, k) => sum + value * entry(b, k, j), 0)));
}

export function timesVector(a: Matrix, x: Vector): number[] {
  return a.map((row) => row.reduce((sum, value, k) => sum + value * (x[k] ?? Number.NaN), 0));
}

/**
 * Solves A x = b for a square A by elimination with the largest pivot of each column. null when A is singular: when a
 * pivot is smaller than 1e-13 of the largest entry of its own row at the start.
 */
export function solve(a: Matrix, b: Vector): number[] | null {
  const columns = solveColumns(
    a,
    b.map((value) => [value]),
  );
  return columns === null ? null : columns.map((row) => row[0] ?? Number.NaN);
}

/** The inverse of a square matrix, or null when it is singular (see `solve`). */
export function invert(a: Matrix): number[][] | null {
  return solveColumns(
    a,
    a.map((_, i) => a.map((_row, j) => (i === j ? 1 : 0))),
  );
}

/** A row smaller than this part of what it began with has been eliminated: what is left is rounding. */
const SINGULAR = 1e-13;

function solveColumns(a: Matrix, b: Matrix): number[][] | null {
  const n = a.length;
  if (a.some((row) => row.length !== n) || b.length !== n) throw new Error('linear: a square system is wanted');
  const sizes = a.map((row) => Math.max(...row.map(Math.abs)));
  const rows = a.map((row, i) => ({ row: [...row, ...(b[i] ?? [])], size: sizes[i] ?? 0 }));
  for (let column = 0; column < n; column += 1) {
    let best = column;
    for (let i = column + 1; i < n; i += 1) if (relative(rows[i], column) > relative(rows[best], column)) best = i;
    const pivot = rows[best];
    const other = rows[column];
    if (pivot === undefined || other === undefined || !(relative(pivot, column) > SINGULAR)) return null;
    [rows[best], rows[column]] = [other, pivot];
    for (const [i, { row }] of rows.entries()) {
      const factor = i === column ? 0 : (row[column] ?? 0) / (pivot.row[column] ?? 0);
      if (factor !== 0)
        for (let j = column; j < row.length; j += 1) row[j] = (row[j] ?? 0) - factor * (pivot.row[j] ?? 0);
    }
  }
  return rows.map(({ row }, i) => row.slice(n).map((value) => value / (row[i] ?? Number.NaN)));
}

function relative(of: { readonly row: readonly number[]; readonly size: number } | undefined, column: number): number {
  return of === undefined || of.size === 0 ? 0 : Math.abs(of.row[column] ?? 0) / of.size;
}

/** A symmetric matrix as its eigenvalues, from the largest to the smallest, with unit eigenvectors in the same order. */
export interface Eigen {
  readonly values: readonly number[];
  readonly vectors: Matrix;
}

const MOST_SWEEPS = 60;

/**
 * Eigenvalues and eigenvectors of a symmetric matrix by Jacobi's rotations (G. H. Golub and C. F. Van Loan, Matrix
 * Computations, section 8.5), which find small eigenvalues to the last digits of the matrix.
 */
export function symmetricEigen(matrix: Matrix): Eigen {
  const n = matrix.length;
  const a = matrix.map((row) => [...row]);
  const v = matrix.map((_, i) => matrix.map((_row, j) => (i === j ? 1 : 0)));
  const scale = Math.max(...a.flat().map(Math.abs), Number.MIN_VALUE);
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep += 1) {
    let off = 0;
    for (let p = 0; p < n; p += 1) for (let q = p + 1; q < n; q += 1) off = Math.max(off, Math.abs(entry(a, p, q)));
    if (off <= 1e-300 || off / scale < 1e-18) break;
    for (let p = 0; p < n; p += 1) for (let q = p + 1; q < n; q += 1) rotate(a, v, p, q);
  }
  const order = a.map((_, i) => i).sort((i, j) => entry(a, j, j) - entry(a, i, i));
  return { values: order.map((i) => entry(a, i, i)), vectors: order.map((i) => v.map((row) => row[i] ?? 0)) };
}

function rotate(a: number[][], v: number[][], p: number, q: number): void {
  const apq = entry(a, p, q);
  if (apq === 0) return;
  const theta = (entry(a, q, q) - entry(a, p, p)) / (2 * apq);
  const t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.hypot(theta, 1));
  const c = 1 / Math.hypot(t, 1);
  const s = t * c;
  const turn = (rows: number[][], i: number, j: number, k: number, l: number): void => {
    const [one, other] = [entry(rows, i, j), entry(rows, k, l)];
    (rows[i] ?? [])[j] = c * one - s * other;
    (rows[k] ?? [])[l] = s * one + c * other;
  };
  for (let k = 0; k < a.length; k += 1) turn(a, k, p, k, q);
  for (let k = 0; k < a.length; k += 1) turn(a, p, k, q, k);
  for (let k = 0; k < v.length; k += 1) turn(v, k, p, k, q);
}
