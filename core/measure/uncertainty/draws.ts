import { normalQuantile } from './normal-quantile.ts';
import { seeded } from './seeded.ts';

export type Spread = 'normal' | 'rectangular';

/** Columns of more trials than this are not kept: the program's own runs are shorter. */
const MOST_KEPT = 5000;
/** As many columns are kept at most, then all are dropped. A reading has some twenty inputs. */
const MOST_COLUMNS = 256;

const kept = new Map<string, Float64Array>();

/**
 * Values of one input for all trials of a run, told in standard uncertainties from its value: mean 0, standard deviation 1.
 * Each of `trials` equally likely parts of the distribution is drawn from once, in an order of its own for every input (Latin
 * hypercube sampling: M. D. McKay, R. J. Beckman, W. J. Conover, Technometrics 21 (1979) 239-245): what each input does by
 * itself then hardly scatters from run to run, and fewer trials do. Independent between inputs. Same seed, same values; they
 * are kept, since a program that asks with one seed asks for the same ones each time. Not to be written to.
 */
export function drawsOf(spread: Spread, input: number, trials: number, seed: number): Float64Array {
  const key = `${spread} ${String(input)} ${String(trials)} ${String(seed)}`;
  const known = kept.get(key);
  if (known !== undefined) return known;
  const column = drawn(spread, trials, seed + Math.imul(input + 1, 0x9e3779b1));
  if (trials > MOST_KEPT) return column;
  if (kept.size >= MOST_COLUMNS) kept.clear();
  kept.set(key, column);
  return column;
}

function drawn(spread: Spread, trials: number, seed: number): Float64Array {
  const numbers = seeded(seed);
  const column = new Float64Array(trials);
  for (let part = 0; part < trials; part += 1) {
    const at = (part + numbers.uniform()) / trials;
    column[part] = spread === 'rectangular' ? Math.sqrt(12) * (at - 0.5) : normalQuantile(at);
  }
  // Fisher and Yates: every order is equally likely.
  for (let place = trials - 1; place > 0; place -= 1) {
    const other = Math.floor(numbers.uniform() * (place + 1));
    const value = column[place] ?? 0;
    column[place] = column[other] ?? 0;
    column[other] = value;
  }
  return column;
}
