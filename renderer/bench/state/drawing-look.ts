import type { FrameMarks, ShapeKind, ShapeLook } from '../../../core/model/mark.ts';
import { kindOf } from '../../../core/shapes/shapes.ts';
import { changeSettings, settings } from '../../shell/state/settings.ts';
import { dressed, lookOf } from '../../tools/change-marks.ts';

/** The look of the next shape is that of the last one, also after the program was closed. */

/** Whether a coach chooses how shapes of a kind look: what is only measured by, and a path, look as they must. */
export function hasLook(kind: ShapeKind): boolean {
  return kind !== 'path' && !kindOf({ kind }).isForMeasure;
}

/** Whether shapes of a kind have a number that stands beside them. */
export function isNumbered(kind: ShapeKind): boolean {
  return kind === 'line' || kind === 'angle' || kind === 'box' || kind === 'circle';
}

export function nextLook(): ShapeLook {
  return settings.get().drawing ?? {};
}

export function rememberLook(drawing: ShapeLook): void {
  changeSettings({ drawing });
}

/** The marks with the look of the next shape on the one that was just drawn, the last. */
export function inNextLook(before: FrameMarks, after: FrameMarks): FrameMarks {
  const drawn = after.shapes.at(-1);
  if (drawn === undefined || after.shapes.length <= before.shapes.length || !hasLook(drawn.kind)) return after;
  const look = nextLook();
  const shown = isNumbered(drawn.kind) ? look : { ...look, unlabelled: undefined };
  return { ...after, shapes: [...after.shapes.slice(0, -1), dressed(drawn, lookOf(shown))] };
}
