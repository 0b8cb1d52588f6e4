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
  const squares = new Map<UncertaintySource, number>();
  for (const [i, quantity] of quantities.entries())
    for (const { source, u } of partsOf(quantity))
      squares.set(source, (squares.get(source) ?? 0) + ((slopes[i] ?? 0) * u) ** 2);
  return sorted(UNCERTAINTY_SOURCES.map((source) => ({ source, u: Math.sqrt(squares.get(source) ?? 0) })));
}

/** The same by trials: each source alone, with everything else held where it is. Their squares need not add up. */
export function budgetByTrials(model: Model, inputs: Inputs, seed: number): readonly BudgetPart[] {
  return sorted(
    sourcesOf(inputs.quantities).map((source) => {
      const quantities = inputs.quantities.map((quantity) => ({ ...quantity, u: partFrom(quantity, source) }));
      const sample = propagateMonteCarlo(model, { quantities }, { trials: TRIALS, seed });
      return { source, u: sample?.u ?? 0 };
    }),
  );
}

/** What of an input's u is from that source. */
function partFrom(quantity: Quantity, wanted: UncertaintySource): number {
  return Math.hypot(...partsOf(quantity).flatMap(({ source, u }) => (source === wanted ? [u] : [])));
}

function partsOf({ source = 'placing', u, parts = [{ source, u }] }: Quantity): readonly BudgetPart[] {
  return parts;
}

function sourcesOf(quantities: readonly Quantity[]): readonly UncertaintySource[] {
  const all = new Set(quantities.flatMap(partsOf).flatMap(({ source, u }) => (u > 0 ? [source] : [])));
  return UNCERTAINTY_SOURCES.filter((source) => all.has(source));
}

/** Parts of a budget with one more; what is there of that source already grows by it. */
export function withPart(budget: readonly BudgetPart[], source: UncertaintySource, u: number): readonly BudgetPart[] {
  const others = budget.filter((part) => part.source !== source);
  const there = budget.filter((part) => part.source === source).map((part) => part.u);
  return sorted([...others, { source, u: Math.hypot(u, ...there) }]);
}

function sorted(parts: readonly BudgetPart[]): readonly BudgetPart[] {
  return parts.filter(({ u }) => u > 0).toSorted((one, other) => other.u - one.u);
}
