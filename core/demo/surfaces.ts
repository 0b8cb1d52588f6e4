import { add, along, between, cross, scale, squareTo, subtract, unit } from '../scene/vector.ts';
import type { Vector } from '../scene/vector.ts';

/** Surfaces of a picture: triangles over corner points with outward normals, each piece of one colour. */
export interface Piece {
  readonly colour: Colour;
  readonly points: readonly Vector[];
  readonly normals: readonly Vector[];
  /** Three places in `points` a triangle; both sides of a triangle are painted. */
  readonly triangles: readonly number[];
}

/** sRGB, each 0 to 255; `shine` 0 to 1 is how much of a highlight the surface has. */
export interface Colour {
  readonly red: number;
  readonly green: number;
  readonly blue: number;
  readonly shine: number;
}

/** One cross-section of a tube: an ellipse round `centre`, half axes along `side` and `front` (unit vectors). */
export interface Ring {
  readonly centre: Vector;
  readonly side: Vector;
  readonly front: Vector;
  readonly halfSide: number;
  readonly halfFront: number;
}

const CORNERS = 16;

/** A closed skin over cross-sections in order, flat at both ends. At least two rings. */
export function skinOver(rings: readonly Ring[], colour: Colour): Piece {
  const points: Vector[] = [];
  const normals: Vector[] = [];
  const triangles: number[] = [];
  rings.forEach((ring, at) => {
    const before = rings[Math.max(0, at - 1)] ?? ring;
    const after = rings[Math.min(rings.length - 1, at + 1)] ?? ring;
    const run = subtract(after.centre, before.centre);
    const size = Math.max(1e-6, Math.hypot(run.x, run.y, run.z));
    // A skin that widens along its run faces back, one that narrows faces on.
    const slant = (before.halfSide + before.halfFront - after.halfSide - after.halfFront) / (2 * size);
    for (let corner = 0; corner < CORNERS; corner += 1) {
      const turn = (2 * Math.PI * corner) / CORNERS;
      const c = Math.cos(turn);
      const s = Math.sin(turn);
      points.push(along(along(ring.centre, ring.side, ring.halfSide * c), ring.front, ring.halfFront * s));
      const out = add(
        scale(ring.side, c / Math.max(1e-6, ring.halfSide)),
        scale(ring.front, s / Math.max(1e-6, ring.halfFront)),
      );
      normals.push(unit(along(unit(out), run, slant / size)));
      if (at === 0) continue;
      const next = (corner + 1) % CORNERS;
      const low = (at - 1) * CORNERS;
      const high = at * CORNERS;
      triangles.push(low + corner, low + next, high + corner, low + next, high + next, high + corner);
    }
  });
  for (const [at, sign] of [
    [0, -1],
    [rings.length - 1, 1],
  ] as const) {
    const ring = rings[at];
    const inner = rings[at === 0 ? 1 : at - 1];
    if (ring === undefined || inner === undefined) throw new Error('skinOver: at least two rings');
    const out = scale(unit(subtract(ring.centre, inner.centre)), Math.abs(sign));
    const first = points.length;
    points.push(ring.centre);
    normals.push(out);
    for (let corner = 0; corner < CORNERS; corner += 1) {
      points.push(points[at * CORNERS + corner] ?? ring.centre);
      normals.push(out);
      triangles.push(first, first + 1 + corner, first + 1 + ((corner + 1) % CORNERS));
    }
  }
  return { colour, points, normals, triangles };
}

/** A round limb from `from` to `to` with rounded ends; `radii` at equal steps along it, at least two. */
export function limbBetween(from: Vector, to: Vector, radii: readonly number[], colour: Colour): Piece {
  const axis = unit(subtract(to, from));
  const side = squareTo(axis, Math.abs(axis.x) < 0.8 ? { x: 1, y: 0, z: 0 } : { x: 0, y: 0, z: 1 });
  const front = cross(axis, side);
  const ring = (centre: Vector, radius: number): Ring => ({ centre, side, front, halfSide: radius, halfFront: radius });
  const first = radii[0] ?? 0;
  const last = radii[radii.length - 1] ?? 0;
  const dome = [0.05, 0.5, 0.85];
  return skinOver(
    [
      ...dome.map((share) => ring(along(from, axis, -first * Math.sqrt(1 - share * share)), first * share)),
      ...radii.map((radius, at) => ring(between(from, to, at / (radii.length - 1)), radius)),
      ...dome.toReversed().map((share) => ring(along(to, axis, last * Math.sqrt(1 - share * share)), last * share)),
    ],
    colour,
  );
}

/** An egg: half axes along three directions square to each other; `from` and `to` cut it along `up`, -1 to 1. */
export function egg(
  centre: Vector,
  axes: { readonly up: Vector; readonly side: Vector; readonly front: Vector },
  halves: { readonly up: number; readonly side: number; readonly front: number },
  colour: Colour,
  from = -1,
  to = 1,
): Piece {
  const steps = 9;
  const low = Math.asin(Math.max(-0.999, from));
  const high = Math.asin(Math.min(0.999, to));
  const rings: Ring[] = [];
  for (let step = 0; step <= steps; step += 1) {
    const rise = low + ((high - low) * step) / steps;
    rings.push({
      centre: along(centre, axes.up, halves.up * Math.sin(rise)),
      side: axes.side,
      front: axes.front,
      halfSide: halves.side * Math.cos(rise),
      halfFront: halves.front * Math.cos(rise),
    });
  }
  return skinOver(rings, colour);
}
