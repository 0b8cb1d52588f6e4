import type { PicturePoint } from '../../core/model/mark.ts';
import { SHAPES, isKindBy } from '../../core/shapes/shapes.ts';
import type { Gesture, KindBy } from '../../core/shapes/shapes.ts';
import { withNewShape } from './change-marks.ts';
import { stepCircle } from './circle-tool.ts';
import { stepClicking } from './clicked-places.ts';
import { stepDrawing } from './drawing-tool.ts';
import { stepGround } from './ground-tool.ts';
import { stepSelectedKey } from './keys.ts';
import { stepMove } from './move-tool.ts';
import { stepNudge } from './nudge.ts';
import { pick } from './pick.ts';
import { stepPath } from './path-tool.ts';
import { stepPoints } from './points-tool.ts';
import { stepStroke } from './stroke-tool.ts';
import { cancelled, unused } from './tool.ts';
import type { ToolEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

/** Hands the event to the tool in hand. */
export function stepTool(state: ToolState, event: ToolEvent, scene: ToolScene): ToolStep {
  if (event.type === 'cancel') return cancelled(state, scene);
  // While a gesture runs the pointer says where things go.
  if (event.type === 'nudge') return state.name === 'idle' ? stepNudge(state, event.by, scene) : unused(state, scene);
  if (state.name === 'idle' && event.type !== 'down') {
    if (event.type !== 'key') return unused(state, scene);
    if (state.tool !== 'points' && state.tool !== 'path') return stepSelectedKey(state, event.key, scene);
  }
  // What was just drawn is set right by its handles while its tool is in hand.
  if (state.name === 'idle' && event.type === 'down' && isDrawingTool(state.tool) && takesSelected(event.at, scene))
    return stepMove({ tool: 'move', name: 'idle' }, event, scene);
  // A kind that names its gesture needs no more than that here.
  if (isBy('drawn', state)) return stepDrawing(state, event, scene, SHAPES[state.tool].drawn);
  if (isBy('stroke', state)) return stepStroke(state, event, scene, SHAPES[state.tool].stroke);
  if (isBy('clicked', state)) {
    const { fewest, through } = SHAPES[state.tool].clicked;
    const drawn = (places: readonly PicturePoint[]) => withNewShape(scene.marks, through(places, scene.newId));
    return stepClicking(state, event, scene, { full: null, fewest, drawn, kept: drawn });
  }
  switch (state.tool) {
    case 'move':
      return stepMove(state, event, scene);
    case 'points':
      return stepPoints(state, event, scene);
    case 'circle':
      return stepCircle(state, event, scene);
    case 'path':
      return stepPath(state, event, scene);
    case 'ground':
      return stepGround(state, event, scene);
  }
}

function isDrawingTool(tool: ToolState['tool']): boolean {
  return tool !== 'move' && tool !== 'points' && tool !== 'path' && tool !== 'ground';
}

/** Whether a press takes a handle of the selected shape. */
function takesSelected(at: PicturePoint, { marks, selected, reach }: ToolScene): boolean {
  const taken = selected?.kind === 'shape' ? pick(marks, at, reach) : null;
  return taken?.kind === 'shape' && taken.handle !== null && selected?.kind === 'shape' && taken.id === selected.id;
}

function isBy<G extends Gesture>(
  gesture: G,
  state: ToolState,
): state is Extract<ToolState, { readonly tool: KindBy<G> }> {
  return isKindBy(gesture, state.tool);
}
