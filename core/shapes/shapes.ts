import type { Shape, ShapeKind } from '../model/mark.ts';
import { angle } from './angle.ts';
import { box } from './box.ts';
import { circle } from './circle.ts';
import { edge } from './edge.ts';
import { free } from './free.ts';
import { ground } from './ground.ts';
import type { ShapeKindOf } from './kind.ts';
import { line } from './line.ts';
import { path } from './path.ts';

/** One module for every kind of shape, in the order of the tools. The compiler names one that is missing. */
export const SHAPES = { line, angle, box, circle, free, path, ground, edge } as const satisfies {
  readonly [Kind in ShapeKind]: ShapeKindOf<Extract<Shape, { kind: Kind }>>;
};

export const SHAPE_KINDS = Object.keys(SHAPES).filter((name): name is ShapeKind => name in SHAPES);

/** Kinds that are drawn through a fixed number of places. */
export type DrawnKind = {
  [Kind in ShapeKind]: (typeof SHAPES)[Kind] extends { readonly drawn: unknown } ? Kind : never;
}[ShapeKind];

export function isDrawnKind(name: string): name is DrawnKind {
  return SHAPE_KINDS.some((kind) => kind === name && 'drawn' in SHAPES[kind]);
}

/** What the kind of a shape says of it. */
export function kindOf({ kind }: Pick<Shape, 'kind'>): ShapeKindOf<Shape> {
  return KINDS[kind];
}

const KINDS: Readonly<Record<ShapeKind, ShapeKindOf<Shape>>> = SHAPES;
