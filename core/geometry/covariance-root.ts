import { entry, symmetricEigen } from './linear.ts';
import type { Matrix } from './linear.ts';

/**
 * Vectors r_k whose outer products sum to the covariance: its eigenvectors, each as long as the root of its value. With
 * independent standard normal z_k, sum z_k r_k has that covariance. Values that rounding made negative count as 0.
 */
export function covarianceRoot(covariance: Matrix): Matrix {
  const even = covariance.map((row, i) => row.map((value, j) => (value + entry(covariance, j, i)) / 2));
  const { values, vectors } = symmetricEigen(even);
  return vectors.map((vector, k) => vector.map((value) => value * Math.sqrt(Math.max(0, values[k] ?? 0))));
}
