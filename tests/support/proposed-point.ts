import type { ProposedPoint } from '../../core/model/proposed-points.ts';

/** A point proposed where a pose model saw it, with the error that is assumed. */
export function proposedPointAt(x: number, y: number, guess: number): ProposedPoint {
  const kept = { model: { x, y }, assumed: guess, size: 700, at: '2026-11-30T12:00:00.000Z' };
  return { x, y, guess, proposed: { x, y, ...kept } };
}
