import type { EdgeShape, PicturePoint } from '../../core/model/mark.ts';
import { withNewShape } from './change-marks.ts';
import { stepClicking } from './clicked-places.ts';
import type { ClickingState } from './clicked-places.ts';
import type { GestureEvent, ToolScene, ToolStep } from './tool.ts';

/** Two places are straight by themselves. */
const FEWEST_PLACES = 3;

function edgeThrough(places: readonly PicturePoint[], id: string): EdgeShape {
  return { kind: 'edge', id, places, carried: true };
}

/** Clicks three or more places along one edge that is straight in reality; Enter or a second click on the last ends it. */
export function stepEdge(state: ClickingState, event: GestureEvent, scene: ToolScene): ToolStep {
  const through = (places: readonly PicturePoint[]) => withNewShape(scene.marks, edgeThrough(places, scene.newId));
  return stepClicking(state, event, scene, {
    full: null,
    fewest: FEWEST_PLACES,
    drawn: through,
    kept: (places) => ({ marks: through(places), id: scene.newId }),
  });
}
