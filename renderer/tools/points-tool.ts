import { BODY_POINT_INFO, BODY_POINTS } from '../../core/model/body-points.ts';
import type { BodyPointId } from '../../core/model/body-points.ts';
import type { FrameMarks, PicturePoint } from '../../core/model/mark.ts';
import type { View } from '../../core/model/words.ts';
import { withPoint } from './change-marks.ts';
import { stepHolding, takeHold } from './held.ts';
import { stepSelectedKey } from './keys.ts';
import { pick } from './pick.ts';
import { cancelled, idle, unused } from './tool.ts';
import type { ToolEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

/** The body points that readings of a view use, in the order of the guided run. */
export function pointsOfView(view: View): readonly BodyPointId[] {
  return BODY_POINTS.filter((point) => BODY_POINT_INFO[point].views.includes(view));
}

/** The first point of the run after `after` that is not placed, going round once; null when all are placed. */
export function nextPoint(view: View, marks: FrameMarks, after: BodyPointId | null): BodyPointId | null {
  const run = pointsOfView(view);
  const start = after === null ? 0 : run.indexOf(after) + 1;
  const inOrder = [...run.slice(start), ...run.slice(0, start)];
  return inOrder.find((point) => marks.points[point] === undefined) ?? null;
}

function placedAt(scene: ToolScene, point: BodyPointId, at: PicturePoint): FrameMarks {
  return withPoint(scene.marks, point, { x: at.x, y: at.y, hidden: scene.marks.points[point]?.hidden ?? false });
}

/**
 * Places body points one after another. A press near a placed point takes hold of that one instead; a press elsewhere puts
 * the asked-for point under the pointer until it is let go. Enter with nothing selected puts it in the middle of the view,
 * for placing by keys alone.
 */
export function stepPoints(
  state: Extract<ToolState, { tool: 'points' }>,
  event: ToolEvent,
  scene: ToolScene,
): ToolStep {
  if (state.name === 'holding') return stepHolding(state, event, scene);
  if (event.type === 'cancel') return cancelled(state, scene);
  if (state.name === 'placing') return stepPlacing(state, event, scene);
  if (event.type === 'key') {
    if (event.key === 'Enter' && scene.selected === null && scene.next !== null) {
      const commit = placedAt(scene, scene.next, scene.centre);
      return { state, draft: null, commit, selected: { kind: 'point', point: scene.next }, used: true };
    }
    return stepSelectedKey(state, event.key, event.shift, scene);
  }
  if (event.type !== 'down') return unused(state, scene);
  const near = pick({ ...scene.marks, shapes: [] }, event.at, scene.reach);
  if (near !== null) return takeHold('points', near, event.at);
  if (scene.next === null) return { ...unused(state, scene), selected: null, used: true };
  return {
    state: { tool: 'points', name: 'placing', point: scene.next },
    draft: placedAt(scene, scene.next, event.at),
    commit: null,
    selected: null,
    used: true,
  };
}

function stepPlacing(
  state: Extract<ToolState, { name: 'placing' }>,
  event: Exclude<ToolEvent, { type: 'cancel' }>,
  scene: ToolScene,
): ToolStep {
  if (event.type === 'key' || event.type === 'down') return { ...unused(state, scene), used: true };
  const marks = placedAt(scene, state.point, event.at);
  if (event.type === 'move') return { state, draft: marks, commit: null, selected: null, used: true };
  const selected = { kind: 'point', point: state.point } as const;
  return { state: idle('points'), draft: null, commit: marks, selected, used: true };
}
