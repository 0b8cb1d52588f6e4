import type { GroundLayout, GroundMark, GroundShape, PicturePoint } from '../../core/model/mark.ts';

/** A place on the ground, as it was laid: millimetres toward the target, and from the player toward the ball. */
export type LaidPlace = Pick<GroundMark, 'target' | 'ball'>;

/** What is laid on the ground: its places in the order in which they are clicked. */
export interface GroundPlan {
  readonly layout: GroundLayout;
  /** Four or more. */
  readonly places: readonly LaidPlace[];
}

/** Fewest places that tell how the ground lies. */
export const FEWEST_MARKS = 4;

/** Two lengths of a layout, millimetres: along the target line, and across it toward the ball. */
export interface GroundSize {
  readonly along: number;
  readonly across: number;
}

/** The corners of a mat, round it from the one nearest the target at the ball's side; counted from its middle. */
export function matPlan({ along, across }: GroundSize): GroundPlan {
  const [target, ball] = [along / 2, across / 2];
  const places = [
    { target, ball },
    { target, ball: -ball },
    { target: -target, ball: -ball },
    { target: -target, ball },
  ];
  return { layout: 'mat', places };
}

/** The ends of two sticks that cross at their middles: toward the target, away from it, toward the ball, toward the player. */
export function sticksPlan({ along, across }: GroundSize): GroundPlan {
  const places = [
    { target: along / 2, ball: 0 },
    { target: -along / 2, ball: 0 },
    { target: 0, ball: across / 2 },
    { target: 0, ball: -across / 2 },
  ];
  return { layout: 'sticks', places };
}

/** How large a mat is, or how long the two sticks are; null for places that were measured one by one. */
export function sizeOf({ layout, places }: GroundPlan): GroundSize | null {
  if (layout === 'measured') return null;
  const reach = (of: keyof LaidPlace) =>
    Math.max(...places.map((place) => place[of])) - Math.min(...places.map((place) => place[of]));
  return { along: reach('target'), across: reach('ball') };
}

/** The shape of the plan's first places, seen where they were clicked. */
export function groundThrough(plan: GroundPlan, clicked: readonly PicturePoint[], id: string): GroundShape {
  const places = plan.places.flatMap(({ target, ball }, i) => {
    const at = clicked[i];
    return at === undefined ? [] : [{ x: at.x, y: at.y, target, ball }];
  });
  return { kind: 'ground', id, layout: plan.layout, places, carried: true };
}

/** The same marks in the picture with other sizes on the ground. Places that the plan has none for keep theirs. */
export function laidAnew(shape: GroundShape, plan: GroundPlan): GroundShape {
  const places = shape.places.map((place, i) => ({ ...place, ...plan.places[i] }));
  return { ...shape, layout: plan.layout, places };
}
