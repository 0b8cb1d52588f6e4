import { BODY_POINTS } from '../../../core/model/body-points.ts';
import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { FrameMarks, PathPlace, PathSubject, PicturePoint } from '../../../core/model/mark.ts';
import type { StageRing } from '../../canvas/stage.ts';
import { handlesOf } from '../../tools/target.ts';
import type { Target } from '../../tools/target.ts';
import type { BenchSources } from './shown-sources.ts';

/** Where missing body points may start on this frame, the one that is asked for drawn stronger. */
export function startRings(
  marks: FrameMarks,
  starts: Readonly<Partial<Record<BodyPointId, PicturePoint>>>,
  asked: BodyPointId | null,
): readonly StageRing[] {
  return BODY_POINTS.flatMap((point): StageRing[] => {
    const at = starts[point];
    if (at === undefined || marks.points[point] !== undefined) return [];
    return [{ at, kind: point === asked ? 'next' : 'start' }];
  });
}

/** The rings over the marks: handles of the selected mark, and the sources of the shown reading. */
export function ringsOf(marks: FrameMarks, selected: Target | null, sources: BenchSources): readonly StageRing[] {
  const ring =
    (kind: StageRing['kind']) =>
    (at: { x: number; y: number }): StageRing => ({ at, kind });
  const points = sources.points.flatMap((point) => marks.points[point] ?? []).map(ring('source'));
  const shapes = marks.shapes
    .filter((shape) => sources.shapes.includes(shape.id))
    .flatMap((shape) => handlesOf(shape).map((handle) => ring('source')(handle.at)));
  return [...points, ...shapes, ...selectedRings(marks, selected)];
}

function selectedRings(marks: FrameMarks, selected: Target | null): readonly StageRing[] {
  if (selected === null) return [];
  if (selected.kind === 'point') {
    const placed = marks.points[selected.point];
    return placed === undefined ? [] : [{ at: placed, kind: 'selected' }];
  }
  const shape = marks.shapes.find((each) => each.id === selected.id);
  if (shape === undefined) return [];
  return handlesOf(shape).map((handle) => ({
    at: handle.at,
    kind: handle.name === selected.handle ? 'selected' : 'handle',
  }));
}

/** What was placed before the picture was on screen, and nobody has looked at since. */
export function unseenRings(marks: FrameMarks, targets: readonly Target[]): readonly StageRing[] {
  const places = targets.flatMap((target): readonly PicturePoint[] => {
    if (target.kind === 'point') {
      const placed = marks.points[target.point];
      return placed === undefined ? [] : [placed];
    }
    const shape = marks.shapes.find(({ id }) => id === target.id);
    if (shape === undefined) return [];
    if (shape.kind === 'path') return shape.places.filter(({ pts }) => pts === marks.frame.pts);
    return handlesOf(shape).map(({ at }) => at);
  });
  return places.map((at): StageRing => ({ at, kind: 'unseen' }));
}

/** Frames before and after this one whose proposed places show. */
const NEAR = 12;

/** Where the path is followed to and nobody has said so: this frame's place stronger, and those of the frames near it. */
export function followedRings({ frame }: FrameMarks, proposed: readonly PathPlace[]): readonly StageRing[] {
  const here = proposed.findIndex(({ pts }) => pts >= frame.pts);
  const middle = here < 0 ? proposed.length : here;
  return proposed
    .slice(Math.max(0, middle - NEAR), middle + NEAR + 1)
    .map((at): StageRing => ({ at, kind: at.pts === frame.pts ? 'next' : 'start' }));
}

/** The place of the path that is followed, on the frame that the marks are of. */
export function pathRings(marks: FrameMarks, follows: PathSubject): readonly StageRing[] {
  return marks.shapes.flatMap((shape) =>
    shape.kind === 'path' && shape.subject === follows
      ? shape.places.filter(({ pts }) => pts === marks.frame.pts).map((at): StageRing => ({ at, kind: 'selected' }))
      : [],
  );
}
