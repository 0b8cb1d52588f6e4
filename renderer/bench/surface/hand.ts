import type { FrameMarks, PicturePoint } from '../../../core/model/mark.ts';
import type { AppState } from '../../shell/state/app-state.ts';
import type { Target } from '../../tools/target.ts';
import type { ToolEvent, ToolState } from '../../tools/tool.ts';

/** What pointer and keys do to what a surface shows. The same object for as long as the program runs. */
export interface Hand {
  /** Hands an event to the tool in hand; answers whether that used it. */
  send(event: ToolEvent): boolean;
  /** Ends a running gesture without keeping anything: a pointer was lost, or a second finger came. */
  cancel(): void;
  /** What Esc does once the tool has no use for it; answers whether that was anything. */
  escape(): boolean;
  /** What Space does that was tapped and not held; left out where that means nothing. */
  tap?(): void;
  /** Whether a command means something here, by its id. */
  allows(command: string): boolean;
  /** What the enlarged view shows; null where nothing is placed, drawn, dragged or moved by keys. */
  held(state: AppState): Held | null;
}

export interface Held {
  readonly tool: ToolState;
  /** Without the gesture's draft. */
  readonly kept: FrameMarks;
  readonly selected: Target | null;
  /** Where Enter would put the body point that is asked for; null where it has no start. */
  readonly start: PicturePoint | null;
}
