import type { FrameMarks, GroundShape } from '../../core/model/mark.ts';
import { withNewShape } from './change-marks.ts';
import { stepClicking } from './clicked-places.ts';
import { FEWEST_MARKS, groundThrough } from './ground-plan.ts';
import type { GroundPlan } from './ground-plan.ts';
import { unused } from './tool.ts';
import type { ClickingState, GestureEvent, ToolScene, ToolStep } from './tool.ts';

/** What is to be clicked, and the ground marks that the clip has. */
export interface GroundScene {
  /** null while the coach has not said how large things are: nothing can be clicked yet. */
  readonly plan: GroundPlan | null;
  /** Marks of the frame that the clip's ground marks are kept with; of this frame while there are none. */
  readonly home: FrameMarks;
  readonly shape: GroundShape | null;
}

/**
 * Clicks the places of ground marks in the order of the plan. A mat and sticks end with their fourth place, measured places
 * with the last that was planned, or by Enter from the fourth on. What is complete takes the place of the clip's earlier
 * ground marks, on the frame where those are kept, so that one step back brings them again.
 */
export function stepGround(state: ClickingState, event: GestureEvent, scene: ToolScene): ToolStep {
  const { plan, home, shape } = scene.ground;
  if (plan === null) return unused(state, scene);
  return stepClicking(state, event, scene, {
    full: plan.places.length,
    fewest: FEWEST_MARKS,
    drawn: (places) => withNewShape(scene.marks, groundThrough(plan, places, scene.newId)),
    kept: (places) => {
      const others = home.shapes.filter(({ id }) => id !== shape?.id);
      return { ...home, shapes: [...others, groundThrough(plan, places, scene.newId)] };
    },
  });
}
