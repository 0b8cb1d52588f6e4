/** What a figure must be: at most or at least a number. */
export interface Bar {
  readonly sense: 'at most' | 'at least';
  readonly limit: number;
}

/** A figure as it is written out. */
export interface Figure {
  readonly name: string;
  /** Short name of the clip it was taken on. */
  readonly clip: string;
  /** Null when it could not be taken; then `ok` is false. */
  readonly value: number | null;
  readonly unit: string;
  /** For example "<= 0.15"; null for a figure that only explains another one. */
  readonly bar: string | null;
  readonly ok: boolean;
}

/** What a figure is before it is taken. */
export interface FigurePlan {
  readonly name: string;
  readonly clip: string;
  readonly unit: string;
  readonly bar: Bar | null;
}

export const atMost = (limit: number): Bar => ({ sense: 'at most', limit });
export const atLeast = (limit: number): Bar => ({ sense: 'at least', limit });

export function barText(bar: Bar): string {
  return `${bar.sense === 'at most' ? '<=' : '>='} ${bar.limit}`;
}

/** NaN meets no bar; a bar's own value meets it. Without a bar it is enough that there is a value. */
export function meets(value: number | null, bar: Bar | null): boolean {
  if (value === null || Number.isNaN(value)) return false;
  if (bar === null) return true;
  return bar.sense === 'at most' ? value <= bar.limit : value >= bar.limit;
}

/** Holds the figures of a run. All that were planned are written out, whether they could be taken or not. */
export interface Ledger {
  /** Throws for a figure that was not planned: a name is written once, in the table of bars. */
  enter(name: string, clip: string, value: number | null): void;
  figures(): readonly Figure[];
}

export function createLedger(plans: readonly FigurePlan[]): Ledger {
  const values = new Map<FigurePlan, number | null>();
  return {
    enter(name, clip, value) {
      const plan = plans.find((each) => each.name === name && each.clip === clip);
      if (plan === undefined) throw new Error(`no figure "${name}" is planned for ${clip}`);
      values.set(plan, value === null || !Number.isFinite(value) ? null : Number(value.toPrecision(4)));
    },
    figures: () =>
      plans.map((plan) => {
        const value = values.get(plan) ?? null;
        const bar = plan.bar === null ? null : barText(plan.bar);
        return { name: plan.name, clip: plan.clip, value, unit: plan.unit, bar, ok: meets(value, plan.bar) };
      }),
  };
}
