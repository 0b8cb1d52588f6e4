import { stepCircle } from './circle-tool.ts';
import { stepDrawing } from './drawing-tool.ts';
import { stepEdge } from './edge-tool.ts';
import { stepFree } from './free-tool.ts';
import { stepGround } from './ground-tool.ts';
import { stepMove } from './move-tool.ts';
import { stepNudge } from './nudge.ts';
import { stepPath } from './path-tool.ts';
import { stepPoints } from './points-tool.ts';
import { unused } from './tool.ts';
import type { ToolEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

/** Hands the event to the tool in hand. */
export function stepTool(state: ToolState, event: ToolEvent, scene: ToolScene): ToolStep {
  // While a gesture runs the pointer says where things go.
  if (event.type === 'nudge') return state.name === 'idle' ? stepNudge(state, event.by, scene) : unused(state, scene);
  switch (state.tool) {
    case 'move':
      return stepMove(state, event, scene);
    case 'points':
      return stepPoints(state, event, scene);
    case 'circle':
      return stepCircle(state, event, scene);
    case 'free':
      return stepFree(state, event, scene);
    case 'path':
      return stepPath(state, event, scene);
    case 'ground':
    case 'edge':
      return state.tool === 'ground' ? stepGround(state, event, scene) : stepEdge(state, event, scene);
    default:
      return stepDrawing(state, event, scene);
  }
}
