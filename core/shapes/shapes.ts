import type { Shape, ShapeKind } from '../model/mark.ts';
import { angle } from './angle.ts';
import { arrow } from './arrow.ts';
import { box } from './box.ts';
import { circle } from './circle.ts';
import { edge } from './edge.ts';
import { free } from './free.ts';
import { ground } from './ground.ts';
import type { ShapeKindOf } from './kind.ts';
import { line } from './line.ts';
import { path } from './path.ts';
import { text } from './text.ts';

/** One module for every kind of shape, in the order of the tools. The compiler names one that is missing. */
export const SHAPES = { line, angle, box, circle, free, arrow, text, path, ground, edge } as const satisfies {
  readonly [Kind in ShapeKind]: ShapeKindOf<Extract<Shape, { kind: Kind }>>;
};

export const SHAPE_KINDS = Object.keys(SHAPES).filter((name): name is ShapeKind => name in SHAPES);

/** What a kind's tool may do without one of its own. */
export type Gesture = 'drawn' | 'clicked' | 'stroke';

/** Kinds whose tool has this gesture. */
export type KindBy<G extends Gesture> = {
  [Kind in ShapeKind]: (typeof SHAPES)[Kind] extends Readonly<Record<G, unknown>> ? Kind : never;
}[ShapeKind];

export function isKindBy<G extends Gesture>(gesture: G, name: string): name is KindBy<G> {
  return SHAPE_KINDS.some((kind) => kind === name && gesture in SHAPES[kind]);
}

/** What the kind of a shape says of it. */
export function kindOf({ kind }: Pick<Shape, 'kind'>): ShapeKindOf<Shape> {
  return KINDS[kind];
}

const KINDS: Readonly<Record<ShapeKind, ShapeKindOf<Shape>>> = SHAPES;
