import type { Figure } from './figures.ts';
import type { WhereMeasured } from './machine.ts';

/** What `--json` prints. */
export interface BenchReport extends WhereMeasured {
  readonly figures: readonly Figure[];
}

export function reportText({ machine, renderer, figures }: BenchReport): string {
  return `${JSON.stringify({ machine, renderer, figures }, null, 2)}\n`;
}
