import { BODY_POINT_INFO, BODY_POINTS } from '../../core/model/body-points.ts';
import type { BodyPointId } from '../../core/model/body-points.ts';
import type { FrameMarks, PicturePoint } from '../../core/model/mark.ts';
import type { Checkpoint, View } from '../../core/model/words.ts';
import { withPoint, withoutTarget } from './change-marks.ts';
import { apart } from '../../core/shapes/places.ts';
import { stepHolding, takeHold } from './held.ts';
import { stepSelectedKey } from './keys.ts';
import { pick } from './pick.ts';
import type { Target } from './target.ts';
import { going, idle, unused } from './tool.ts';
import type { GestureEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

/** What a checkpoint is looked at for comes first: at top the shoulders, which are read against the spine of address. */
const FIRST_AT: Readonly<Partial<Record<Checkpoint, readonly BodyPointId[]>>> = {
  top: ['lead-shoulder', 'trail-shoulder'],
};

/** The body points that readings of a view use, in the order of the guided run at a checkpoint; null: at none. */
export function pointsOfView(view: View, at: Checkpoint | null): readonly BodyPointId[] {
  const all = BODY_POINTS.filter((point) => BODY_POINT_INFO[point].views.includes(view));
  const first = (at === null ? undefined : FIRST_AT[at])?.filter((point) => all.includes(point)) ?? [];
  return [...first, ...all.filter((point) => !first.includes(point))];
}

/** The first point of a run after `after` that is not placed, going round once; null when all are placed. */
export function nextPoint(
  run: readonly BodyPointId[],
  marks: FrameMarks,
  after: BodyPointId | null,
): BodyPointId | null {
  const start = after === null ? 0 : run.indexOf(after) + 1;
  const inOrder = [...run.slice(start), ...run.slice(0, start)];
  return inOrder.find((point) => marks.points[point] === undefined) ?? null;
}

/** The marks with a body point put at `at`; whether it is hidden, and where it had been proposed, stay as they were. */
export function placedAt({ marks, starts }: ToolScene, point: BodyPointId, at: PicturePoint): FrameMarks {
  const was = marks.points[point];
  const { proposed } = was ?? starts[point] ?? {};
  return withPoint(marks, point, {
    ...{ x: at.x, y: at.y, hidden: was?.hidden ?? false },
    ...(proposed === undefined ? {} : { proposed }),
  });
}

/** A press that goes no farther than this part of the reach is a click. */
const CLICK = 1 / 6;

const AT_THE_POINTER: PicturePoint = { x: 0, y: 0 };

/**
 * Places body points one after another. A press puts the asked-for point under the pointer until it is let go. A press near
 * its start that becomes a drag takes it along from there, without a jump; a press near a placed point that becomes a drag
 * moves that one instead, unless the start is as near; so does one near the dashed ring of another point. One that stays a click places where it was clicked: two joints often
 * lie on top of each other. By keys alone: Enter puts it at its start, else in the middle of the view. A nudge puts it
 * there and one step on (nudge.ts). Backspace takes the last one away and asks for it again.
 */
export function stepPoints(
  state: Extract<ToolState, { tool: 'points' }>,
  event: GestureEvent,
  scene: ToolScene,
): ToolStep {
  if (state.name === 'holding') return stepHeld(state, event, scene);
  if (state.name === 'placing') return stepPlacing(state, event, scene);
  if (event.type === 'key') return stepKey(state, event, scene);
  if (event.type !== 'down') return unused(state, scene);
  const near = pick({ ...scene.marks, shapes: [] }, event.at, scene.reach);
  const rival = awayFrom(near, scene.marks, event.at);
  const start = startWithin(scene, event.at, rival);
  const ring = ringWithin(scene, scene.starts, event.at, start === null ? rival : apart(start, event.at));
  if (ring !== null && scene.next !== null) return takeRing(scene, ring, scene.next, event.at);
  if (near !== null && start === null) return takeHold('points', near, event.at);
  if (scene.next === null) return going(state, null);
  const by = start === null ? AT_THE_POINTER : { x: start.x - event.at.x, y: start.y - event.at.y };
  const { next } = scene;
  const placing = { tool: 'points', name: 'placing', point: next, click: next, from: event.at, by } as const;
  return going(placing, placedAt(scene, next, start ?? event.at));
}

/**
 * The proposed point, not placed yet, whose dashed ring is nearest to `at`, within reach and nearer than `rival` pixels; null:
 * none. A hand that takes a ring means it, whichever point is asked for.
 */
export function ringWithin(
  { marks, reach }: ToolScene,
  rings: ToolScene['starts'],
  at: PicturePoint,
  rival: number,
): BodyPointId | null {
  let best: { readonly point: BodyPointId | null; readonly away: number } = { point: null, away: Infinity };
  for (const point of BODY_POINTS) {
    const ring = rings[point];
    if (ring?.guess === undefined || marks.points[point] !== undefined) continue;
    const away = apart(ring, at);
    if (away <= reach && away < Math.min(rival, best.away)) best = { point, away };
  }
  return best.point;
}

/** Takes a proposed point along from its ring, without a jump. `click`: what is placed where the press stays a click. */
export function takeRing(scene: ToolScene, point: BodyPointId, click: BodyPointId, at: PicturePoint): ToolStep {
  const ring = scene.starts[point] ?? at;
  const by = { x: ring.x - at.x, y: ring.y - at.y };
  return going({ tool: 'points', name: 'placing', point, click, from: at, by }, placedAt(scene, point, ring));
}

/** The start of the asked-for point, not placed yet, where it is within reach and no farther than `rival`; else null. */
function startWithin(scene: ToolScene, at: PicturePoint, rival: number): PicturePoint | null {
  const { marks, next, starts, reach } = scene;
  const start = next === null || marks.points[next] !== undefined ? undefined : starts[next];
  return start !== undefined && apart(start, at) <= Math.min(reach, rival) ? start : null;
}

/** How far a placed point is from `at`, pixels; none: without end. */
export function awayFrom(target: Target | null, marks: FrameMarks, at: PicturePoint): number {
  const placed = target?.kind === 'point' ? marks.points[target.point] : undefined;
  return placed === undefined ? Infinity : apart(placed, at);
}

function isClick(from: PicturePoint, event: GestureEvent, { reach }: ToolScene): boolean {
  return event.type === 'up' && apart(from, event.at) <= CLICK * reach;
}

/** A held point is moved by a drag; a click beside it was meant for the point that is asked for. */
function stepHeld(
  state: Extract<ToolState, { tool: 'points'; name: 'holding' }>,
  event: GestureEvent,
  scene: ToolScene,
): ToolStep {
  if (scene.next === null || event.type !== 'up' || !isClick(state.from, event, scene))
    return stepHolding(state, event, scene);
  const { from } = state;
  const { next } = scene;
  const placing = { tool: 'points', name: 'placing', point: next, click: next, from, by: AT_THE_POINTER } as const;
  return stepPlacing(placing, event, scene);
}

function stepKey(
  state: Extract<ToolState, { tool: 'points' }>,
  { key }: { readonly key: string },
  scene: ToolScene,
): ToolStep {
  const { next, selected } = scene;
  if (key === 'Backspace') return stepBack(state, scene);
  if (selected !== null || next === null) return stepSelectedKey(state, key, scene);
  const start = scene.starts[next];
  if (key === 'Enter') {
    // A start that is right needs no second look; a point in the middle of nowhere has to be moved first.
    const { guess } = start ?? {};
    const placed = placedAt(scene, next, start ?? scene.centre);
    const at = placed.points[next];
    const commit = guess === undefined || at === undefined ? placed : withPoint(placed, next, { ...at, guess });
    return { ...going(state, null, start === undefined ? { kind: 'point', point: next } : null), commit };
  }
  return unused(state, scene);
}

/** One back in the run: the selected point, else the last one that is placed before the one asked for. */
function stepBack(state: ToolState, scene: ToolScene): ToolStep {
  const { selected, next, marks, run } = scene;
  if (selected?.kind === 'shape') return stepSelectedKey(state, 'Backspace', scene);
  const before = next === null ? run : run.slice(0, run.indexOf(next));
  const point = selected?.point ?? before.findLast((each) => marks.points[each] !== undefined);
  if (point === undefined) return unused(state, scene);
  const commit = withoutTarget(marks, { kind: 'point', point });
  return { ...going(state, null), commit, ask: point };
}

function stepPlacing(state: Extract<ToolState, { name: 'placing' }>, event: GestureEvent, scene: ToolScene): ToolStep {
  if (event.type === 'key' || event.type === 'down') return going(state, null, scene.selected);
  const isClicked = isClick(state.from, event, scene);
  const [point, by] = isClicked ? [state.click, AT_THE_POINTER] : [state.point, state.by];
  const marks = placedAt(scene, point, { x: event.at.x + by.x, y: event.at.y + by.y });
  if (event.type === 'move') return going(state, marks);
  return { ...going(idle('points'), null, { kind: 'point', point }), commit: marks };
}
