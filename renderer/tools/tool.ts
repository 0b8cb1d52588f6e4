import type { BodyPointId } from '../../core/model/body-points.ts';
import type { FrameMarks, PicturePoint } from '../../core/model/mark.ts';
import type { Target } from './target.ts';

/**
 * A tool is a machine of named states. It is told what the pointer and the keys do, in picture coordinates, and answers
 * with its next state, a draft to show and, when a gesture is complete, the marks to keep. It draws and stores nothing.
 */
export type ToolState =
  | { readonly tool: 'move'; readonly name: 'idle' }
  | { readonly tool: 'move'; readonly name: 'holding'; readonly target: Target; readonly from: PicturePoint }
  | { readonly tool: 'points'; readonly name: 'idle' }
  | { readonly tool: 'points'; readonly name: 'placing'; readonly point: BodyPointId }
  | { readonly tool: 'points'; readonly name: 'holding'; readonly target: Target; readonly from: PicturePoint }
  | { readonly tool: DrawingTool; readonly name: 'idle' }
  | {
      readonly tool: DrawingTool;
      readonly name: 'dragging' | 'following' | 'closing';
      readonly places: readonly PicturePoint[];
    };

export const DRAWING_TOOLS = ['line', 'angle', 'box', 'circle'] as const;
export type DrawingTool = (typeof DRAWING_TOOLS)[number];
export const TOOLS = ['move', 'points', ...DRAWING_TOOLS] as const;
export type ToolName = (typeof TOOLS)[number];

/**
 * down / move / up: the main button, pen or finger. `key`: a key as the browser names it. `cancel`: Esc, a lost pointer, or
 * the frame going away.
 */
export type ToolEvent =
  | { readonly type: 'down' | 'move' | 'up'; readonly at: PicturePoint }
  | { readonly type: 'key'; readonly key: string; readonly shift: boolean }
  | { readonly type: 'cancel' };

/** What a tool may look at. */
export interface ToolScene {
  /** Kept marks of the frame, without any draft. */
  readonly marks: FrameMarks;
  readonly selected: Target | null;
  /** How near the pointer must be to take something, in picture pixels at the present zoom, > 0. */
  readonly reach: number;
  /** Id for a shape that the event completes; unique. */
  readonly newId: string;
  /** The body point that the guided run asks for, or null when all are placed. */
  readonly next: BodyPointId | null;
  /** Middle of what is visible, where a point goes that is placed by key. */
  readonly centre: PicturePoint;
}

export interface ToolStep {
  readonly state: ToolState;
  /** Marks to show while the gesture runs, or null to show the kept ones. */
  readonly draft: FrameMarks | null;
  /** Marks to keep, or null when nothing is to be kept by this event. */
  readonly commit: FrameMarks | null;
  readonly selected: Target | null;
  /** Whether the event meant something to the tool; a key that did not is free for stepping frames. */
  readonly used: boolean;
}

export function idle(tool: ToolName): ToolState {
  return { tool, name: 'idle' };
}

/** A step that keeps everything as it is. */
export function unused(state: ToolState, scene: ToolScene): ToolStep {
  return { state, draft: null, commit: null, selected: scene.selected, used: false };
}

/** Cancelling ends the gesture first; with none running it lets the selection go. */
export function cancelled(state: ToolState, scene: ToolScene): ToolStep {
  const running = state.name !== 'idle';
  return {
    state: idle(state.tool),
    draft: null,
    commit: null,
    selected: running ? scene.selected : null,
    used: running || scene.selected !== null,
  };
}
