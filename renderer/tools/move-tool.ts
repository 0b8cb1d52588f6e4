import { stepHolding, takeHold } from './held.ts';
import { stepSelectedKey } from './keys.ts';
import { pick } from './pick.ts';
import { cancelled, unused } from './tool.ts';
import type { GestureEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

/** Selects and drags what is there. A press on nothing lets the selection go. */
export function stepMove(state: Extract<ToolState, { tool: 'move' }>, event: GestureEvent, scene: ToolScene): ToolStep {
  if (state.name === 'holding') return stepHolding(state, event, scene);
  switch (event.type) {
    case 'cancel':
      return cancelled(state, scene);
    case 'key':
      return stepSelectedKey(state, event.key, scene);
    case 'down': {
      const target = pick(scene.marks, event.at, scene.reach);
      if (target !== null) return takeHold('move', target, event.at);
      return { ...unused(state, scene), selected: null, used: true };
    }
    case 'move':
    case 'up':
      return unused(state, scene);
  }
}
