import type { FrameMarks, PicturePoint } from '../../core/model/mark.ts';
import { apart } from '../../core/shapes/places.ts';
import { going, idle, keeping, unused } from './tool.ts';
import type { ClickingState, GestureEvent, ToolScene, ToolStep } from './tool.ts';

type Places = readonly PicturePoint[];

/** What a tool makes of the places that were clicked. */
export interface ClickedPlaces {
  /** So many end it by themselves; null where only the coach does. */
  readonly full: number | null;
  readonly fewest: number;
  /** Marks that show the places so far, with the one under the pointer. */
  readonly drawn: (places: Places) => FrameMarks;
  /** Marks to keep, the shape among them under the scene's new id. */
  readonly kept: (places: Places) => FrameMarks;
}

/**
 * Collects places by clicks. `pressing`: a place is held, and is taken where it is let go. `collecting`: the button is up
 * and the next place follows the pointer. Enter, or a second click on the last place, ends it once there are enough;
 * Backspace goes back one. A second click on the last place adds none: it was a slip.
 */
export function stepClicking(
  state: ClickingState,
  event: GestureEvent,
  scene: ToolScene,
  { full, fewest, drawn, kept }: ClickedPlaces,
): ToolStep {
  if (state.name === 'idle') {
    if (event.type !== 'down') return unused(state, scene);
    return going({ tool: state.tool, name: 'pressing', places: [] }, drawn([event.at]));
  }
  const { tool, places } = state;
  const collecting = (all: Places): ToolStep =>
    all.length === 0 ? going(idle(tool), null) : going({ tool, name: 'collecting', places: all }, drawn(all));
  const ended = (all: Places): ToolStep => keeping(tool, kept(all), scene.newId);
  const accepted = (): ToolStep => (places.length < fewest ? collecting(places) : ended(places));
  if (event.type === 'key') {
    if (event.key === 'Enter') return accepted();
    return collecting(event.key === 'Backspace' ? places.slice(0, -1) : places);
  }
  if (event.type === 'down') return going({ tool, name: 'pressing', places }, drawn([...places, event.at]));
  if (event.type === 'move' || state.name === 'collecting') return going(state, drawn([...places, event.at]));
  const last = places.at(-1);
  if (last !== undefined && apart(last, event.at) < scene.reach) return accepted();
  const all = [...places, event.at];
  return all.length === full ? ended(all) : collecting(all);
}
