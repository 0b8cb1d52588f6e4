import type { BodyPointId } from '../../core/model/body-points.ts';
import type { FrameMarks, PicturePoint, PlacedPoint, Shape } from '../../core/model/mark.ts';
import { SHAPE_KINDS } from '../../core/shapes/shapes.ts';
import type { KindBy } from '../../core/shapes/shapes.ts';
import { withNewShape } from './change-marks.ts';
import type { GroundScene } from './ground-tool.ts';
import type { PathScene } from './path-tool.ts';
import type { Target } from './target.ts';

/**
 * A tool is a machine of named states. It is told what the pointer and the keys do, in picture coordinates, and answers
 * with its next state, a draft to show and, when a gesture is complete, the marks to keep. It draws and stores nothing.
 */
export type ToolState =
  | { readonly tool: 'move'; readonly name: 'idle' }
  | { readonly tool: 'move'; readonly name: 'holding'; readonly target: Target; readonly from: PicturePoint }
  | { readonly tool: 'points'; readonly name: 'idle' }
  | {
      readonly tool: 'points';
      readonly name: 'placing';
      readonly point: BodyPointId;
      /** What a press that stays a click places: another one where a ring that was not asked for is taken. */
      readonly click: BodyPointId;
      readonly from: PicturePoint;
      /** From the pointer to the point: not zero when its start was taken beside its middle. */
      readonly by: PicturePoint;
    }
  | { readonly tool: 'points'; readonly name: 'holding'; readonly target: Target; readonly from: PicturePoint }
  | { readonly tool: 'circle'; readonly name: 'idle' }
  | { readonly tool: 'circle'; readonly name: 'dragging'; readonly places: readonly PicturePoint[] }
  | { readonly tool: 'circle'; readonly name: 'collecting'; readonly places: readonly PicturePoint[] }
  | { readonly tool: 'circle'; readonly name: 'pressing'; readonly places: readonly PicturePoint[] }
  | { readonly tool: KindBy<'stroke'>; readonly name: 'idle' }
  | { readonly tool: KindBy<'stroke'>; readonly name: 'drawing'; readonly places: readonly PicturePoint[] }
  | { readonly tool: 'path'; readonly name: 'idle' }
  | {
      readonly tool: 'path';
      readonly name: 'following';
      /** From the pointer to the place: not zero when an earlier place was taken beside its middle. */
      readonly by: PicturePoint;
      readonly isNew: boolean;
    }
  | ClickingState<'ground'>
  | ClickingState<KindBy<'clicked'>>
  | { readonly tool: KindBy<'drawn'>; readonly name: 'idle' }
  | {
      readonly tool: KindBy<'drawn'>;
      readonly name: 'dragging' | 'following' | 'closing';
      readonly places: readonly PicturePoint[];
    };

/** Of a tool that collects places by clicks. */
export type ClickingState<Tool extends 'ground' | KindBy<'clicked'> = 'ground' | KindBy<'clicked'>> =
  | { readonly tool: Tool; readonly name: 'idle' }
  | { readonly tool: Tool; readonly name: 'pressing' | 'collecting'; readonly places: readonly PicturePoint[] };

/** Moving, placing body points, and one tool for every kind of shape. */
export const TOOLS = ['move', 'points', ...SHAPE_KINDS] as const;
export type ToolName = (typeof TOOLS)[number];

/** down / move / up: the main button, pen or finger. `key`: a key as the browser names it. */
export type GestureEvent =
  | { readonly type: 'down' | 'move' | 'up'; readonly at: PicturePoint }
  | { readonly type: 'key'; readonly key: string };

/**
 * `cancel`: Esc, a lost pointer, or the frame going away. `nudge`: the mark that keys mean goes this way, in picture pixels.
 * Both mean the same in every tool (step-tool.ts).
 */
export type ToolEvent =
  | GestureEvent
  | { readonly type: 'cancel' }
  | { readonly type: 'nudge'; readonly by: PicturePoint };

/** What a tool may look at. */
export interface ToolScene {
  /** Kept marks of the frame, without any draft. */
  readonly marks: FrameMarks;
  readonly selected: Target | null;
  /** How near the pointer must be to take something, in picture pixels at the present zoom, > 0. */
  readonly reach: number;
  /** Id for a shape that the event completes; unique. */
  readonly newId: string;
  /** The body points of the guided run, in its order. */
  readonly run: readonly BodyPointId[];
  /** The body point that the run asks for, or null when all are placed. */
  readonly next: BodyPointId | null;
  /** Where body points are proposed, or stood on the checkpoint before: a place to start from, which is not a placed point yet. */
  readonly starts: Readonly<Partial<Record<BodyPointId, PicturePoint & Pick<PlacedPoint, 'guess' | 'proposed'>>>>;
  /** Those proposed places that show while no run asks for them; left out: none. */
  readonly offered?: ToolScene['starts'];
  /** Middle of what is visible, where a point goes that is placed by key and has no start. */
  readonly centre: PicturePoint;
  readonly path: PathScene;
  readonly ground: GroundScene;
}

export interface ToolStep {
  readonly state: ToolState;
  /** Marks to show while the gesture runs, or null to show the kept ones. */
  readonly draft: FrameMarks | null;
  /** Marks to keep, or null when nothing is to be kept by this event. Of a path they are those of its own frame. */
  readonly commit: FrameMarks | null;
  readonly selected: Target | null;
  /** Whether the event meant something to the tool; a key that did not is free for stepping frames. */
  readonly used: boolean;
  /** Frames to go on by, after what is kept was kept. */
  readonly goBy?: number;
  /** The body point to ask for next; left out, the guided run goes on by itself. */
  readonly ask?: BodyPointId;
}

export function idle(tool: ToolName): ToolState {
  return { tool, name: 'idle' };
}

/** A step that keeps everything as it is. */
export function unused(state: ToolState, scene: ToolScene): ToolStep {
  return { state, draft: null, commit: null, selected: scene.selected, used: false };
}

/** The gesture goes on. Whatever is shown, nothing is kept yet. */
export function going(state: ToolState, draft: FrameMarks | null, selected: Target | null = null): ToolStep {
  return { state, draft, commit: null, selected, used: true };
}

/** The gesture has made a shape, which is kept and selected; null: it was a slip of the hand. */
export function drew(tool: ToolName, shape: Shape | null, { marks }: ToolScene): ToolStep {
  return shape === null ? going(idle(tool), null) : keeping(tool, withNewShape(marks, shape), shape.id);
}

/** The gesture has made the shape `id` of these marks. */
export function keeping(tool: ToolName, commit: FrameMarks, id: string): ToolStep {
  return { ...going(idle(tool), null, { kind: 'shape', id, handle: null }), commit };
}

/** A gesture goes on with a shape that is not whole yet; null: nothing to show. */
export function drawing(state: ToolState, shape: Shape | null, { marks }: ToolScene): ToolStep {
  return going(state, shape === null ? null : withNewShape(marks, shape));
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
