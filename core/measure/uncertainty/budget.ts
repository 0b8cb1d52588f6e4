import type { BudgetPart, UncertaintySource } from '../../model/reading.ts';
import { UNCERTAINTY_SOURCES } from '../../model/reading.ts';
import { propagateMonteCarlo } from './uncertain.ts';
import type { FirstOrder, Inputs, Model, Quantity } from './uncertain.ts';

/** Enough to tell large parts from small ones (u of a part to 1 / sqrt(2 n), 5 %). */
const TRIALS = 200;

/**
 * What each source adds to the first result: sqrt(sum of squares of slope times u) over its inputs, largest first. Inputs of
 * different sources are independent here, so the squares of the parts add up to u squared (JCGM 100:2008, 5.1.2). Sources
 * that add nothing are left out.
 */
export function budgetOfFirstOrder({ jacobian }: FirstOrder, { quantities }: Inputs): readonly BudgetPart[] {
  const slopes = jacobian[0] ?? [];
  return sorted(
    sourcesOf(quantities).map((source) => {
      const squares = quantities.map((quantity, i) =>
        sourceOf(quantity) === source ? ((slopes[i] ?? 0) * quantity.u) ** 2 : 0,
      );
      return { source, u: Math.sqrt(squares.reduce((sum, square) => sum + square, 0)) };
    }),
  );
}

/** The same by trials: each source alone, with everything else held where it is. Their squares need not add up. */
export function budgetByTrials(model: Model, inputs: Inputs, seed: number): readonly BudgetPart[] {
  return sorted(
    sourcesOf(inputs.quantities).map((source) => {
      const quantities = inputs.quantities.map((quantity) =>
        sourceOf(quantity) === source ? quantity : { ...quantity, u: 0 },
      );
      const sample = propagateMonteCarlo(model, { quantities }, { trials: TRIALS, seed });
      return { source, u: sample?.u ?? 0 };
    }),
  );
}

function sourceOf({ source = 'placing' }: Quantity): UncertaintySource {
  return source;
}

function sourcesOf(quantities: readonly Quantity[]): readonly UncertaintySource[] {
  const there = new Set(quantities.filter(({ u }) => u > 0).map(sourceOf));
  return UNCERTAINTY_SOURCES.filter((source) => there.has(source));
}

function sorted(parts: readonly BudgetPart[]): readonly BudgetPart[] {
  return parts.filter(({ u }) => u > 0).toSorted((one, other) => other.u - one.u);
}
