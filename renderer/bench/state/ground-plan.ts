import type { GroundLayout } from '../../../core/model/mark.ts';
import { readLength } from '../../../core/measure/words/typed-length.ts';
import { FEWEST_MARKS, matPlan, sticksPlan } from '../../tools/ground-plan.ts';
import type { GroundPlan, GroundSize } from '../../tools/ground-plan.ts';
import { createStore } from '../../shell/state/store.ts';

/** Lengths as they were typed (core/measure/words/typed-length.ts). */
export interface TypedSize {
  readonly along: string;
  readonly across: string;
}

export interface TypedPlace {
  readonly target: string;
  readonly ball: string;
}

/** What lies on the ground, as the coach typed it. For as long as the program runs: the same mat lies there all day. */
export interface TypedGround {
  readonly layout: GroundLayout;
  readonly mat: TypedSize;
  readonly sticks: TypedSize;
  readonly measured: readonly TypedPlace[];
  /** What can be clicked; null while a size is missing or none. */
  readonly plan: GroundPlan | null;
}

const NO_SIZE: TypedSize = { along: '', across: '' };
const NO_PLACE: TypedPlace = { target: '', ball: '' };

export const groundPlan = createStore<TypedGround>({
  layout: 'mat',
  mat: NO_SIZE,
  sticks: NO_SIZE,
  measured: Array.from({ length: FEWEST_MARKS }, () => NO_PLACE),
  plan: null,
});

/** Changes what was typed, and what can be clicked with it. */
export function typeGround(change: Partial<Omit<TypedGround, 'plan'>>): void {
  groundPlan.update((before) => {
    const typed = { ...before, ...change };
    return { ...typed, plan: planOf(typed) };
  });
}

/** The plan that was typed for the chosen layout, or null. */
export function planOf({ layout, mat, sticks, measured }: Omit<TypedGround, 'plan'>): GroundPlan | null {
  if (layout === 'measured') return measuredPlan(measured);
  const size = typedSize(layout === 'mat' ? mat : sticks);
  if (size === null) return null;
  return layout === 'mat' ? matPlan(size) : sticksPlan(size);
}

/** Both lengths in mm; null where one is no number above 0. */
export function typedSize({ along, across }: TypedSize): GroundSize | null {
  const size = { along: readLength(along), across: readLength(across) };
  const isSize = (mm: number | null): mm is number => mm !== null && mm > 0;
  return isSize(size.along) && isSize(size.across) ? { along: size.along, across: size.across } : null;
}

/** Rows without any number are left out; null where one has half of its numbers, or too few have any. */
export function measuredPlan(rows: readonly TypedPlace[]): GroundPlan | null {
  const used = rows.filter(({ target, ball }) => target.trim() !== '' || ball.trim() !== '');
  const places = used.flatMap((row) => {
    const [target, ball] = [readLength(row.target), readLength(row.ball)];
    return target === null || ball === null ? [] : [{ target, ball }];
  });
  return places.length < used.length || places.length < FEWEST_MARKS ? null : { layout: 'measured', places };
}
