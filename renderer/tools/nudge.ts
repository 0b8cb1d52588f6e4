import { say } from '../../core/model/say.ts';
import type { PicturePoint } from '../../core/model/mark.ts';
import { movedMarks } from './change-marks.ts';
import { placedAt } from './points-tool.ts';
import { targetExists } from './target.ts';
import { going, unused } from './tool.ts';
import type { ToolScene, ToolState, ToolStep } from './tool.ts';

/** One way in which keys move a mark. */
export interface Nudge {
  /** The command's, which stays the same for ever. */
  readonly id: string;
  readonly label: string;
  /** Picture pixels. */
  readonly by: PicturePoint;
  readonly isFine: boolean;
  /** The usual key. */
  readonly key: string;
}

const STEP = 1;
const FINE_STEP = 0.1;
const WAYS = [
  { way: 'left', arrow: 'ArrowLeft', x: -1, y: 0 },
  { way: 'right', arrow: 'ArrowRight', x: 1, y: 0 },
  { way: 'up', arrow: 'ArrowUp', x: 0, y: -1 },
  { way: 'down', arrow: 'ArrowDown', x: 0, y: 1 },
] as const;

const LABELS: Readonly<Record<(typeof WAYS)[number]['way'], (step: number) => string>> = {
  left: (step) => say`Move the mark left by ${step} px`,
  right: (step) => say`Move the mark right by ${step} px`,
  up: (step) => say`Move the mark up by ${step} px`,
  down: (step) => say`Move the mark down by ${step} px`,
};

/** Stepping frames and moving a mark share no key: a point would else be moved unnoticed by who wants the next frame. */
export const NUDGES: readonly Nudge[] = [false, true].flatMap((isFine) =>
  WAYS.map(({ way, arrow, x, y }): Nudge => {
    const step = isFine ? FINE_STEP : STEP;
    return {
      id: `nudge-${way}${isFine ? '-fine' : ''}`,
      label: LABELS[way](step),
      by: { x: x * step, y: y * step },
      isFine,
      key: `Mod+${isFine ? 'Shift+' : ''}${arrow}`,
    };
  }),
);

/** The nudge that a command stands for, or null. */
export function nudgeOf(commandId: string): Nudge | null {
  return NUDGES.find(({ id }) => id === commandId) ?? null;
}

/**
 * Moves the selected mark. With none selected the guided run's asked-for point goes to its start and so far on. By keys a
 * handle moves only where a handle was taken: moving a whole shape by one of its ends would bend it.
 */
export function stepNudge(state: ToolState, by: PicturePoint, scene: ToolScene): ToolStep {
  const { marks, selected, next, starts } = scene;
  if (selected !== null && targetExists(marks, selected))
    return { ...going(state, null, selected), commit: movedMarks(marks, selected, by) };
  const start = next === null ? undefined : starts[next];
  if (state.tool !== 'points' || next === null || start === undefined) return unused(state, scene);
  const commit = placedAt(scene, next, { x: start.x + by.x, y: start.y + by.y });
  return { ...going(state, null, { kind: 'point', point: next }), commit };
}
