import { coverageFactor, effectiveFreedom } from './freedom.ts';
import type { FirstOrder, Inputs } from './uncertain.ts';

/**
 * How many u either side hold 95 %: 1.96, or Student's t where inputs' u are known from few repeats (JCGM 100:2008, G.4).
 * Inputs that rest on one estimate are wrong by the same factor together: they make one component. `more`: u of the result
 * that is known besides.
 */
export function coverageOf({ jacobian }: FirstOrder, { quantities }: Inputs, more = 0): number {
  const slopes = jacobian[0] ?? [];
  const squares = new Map<string, { readonly square: number; readonly freedom: number }>();
  let known = more ** 2;
  for (const [i, { u, rests, parts }] of quantities.entries()) {
    const square = ((slopes[i] ?? 0) * u) ** 2;
    if (rests === undefined) {
      known += square;
      continue;
    }
    // Of several parts only the placing was estimated.
    const placing = parts?.find(({ source }) => source === 'placing')?.u ?? u;
    const resting = ((slopes[i] ?? 0) * placing) ** 2;
    known += square - resting;
    squares.set(rests.on, { square: (squares.get(rests.on)?.square ?? 0) + resting, freedom: rests.freedom });
  }
  if (squares.size === 0) return coverageFactor(Infinity);
  const components = [...squares.values()].map(({ square, freedom }) => ({ u: Math.sqrt(square), freedom }));
  return coverageFactor(effectiveFreedom([...components, { u: Math.sqrt(known), freedom: Infinity }]));
}
