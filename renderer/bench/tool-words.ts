import { lowered, say } from '../../core/model/say.ts';
import { BODY_POINT_INFO } from '../../core/model/body-points.ts';
import type { BodyPointId } from '../../core/model/body-points.ts';
import type { PathSubject } from '../../core/model/mark.ts';
import { groundPlaceWords } from '../../core/measure/words/camera-words.ts';
import { typedLength } from '../../core/measure/words/format.ts';
import { shownUnit } from '../../core/measure/words/shown-units.ts';
import type { ToolEntry } from '../../core/shapes/kind.ts';
import { SHAPES } from '../../core/shapes/shapes.ts';
import { FEWEST_MARKS } from '../tools/ground-plan.ts';
import type { GroundPlan } from '../tools/ground-plan.ts';
import type { Target } from '../tools/target.ts';
import type { ToolName, ToolState } from '../tools/tool.ts';

/** How many points are proposed on a frame. */
export function proposedWords(count: number): string {
  return count === 1 ? say`1 point is proposed.` : say`${count} points are proposed.`;
}

export function toolLabel(tool: ToolName): string {
  if (tool === 'move') return say`Move`;
  return tool === 'points' ? say`Body points` : SHAPES[tool].label;
}

/** What every tool has, one for a kind of shape or not. */
export function toolEntry(tool: ToolName): ToolEntry {
  return tool === 'move' || tool === 'points' ? OWN[tool] : SHAPES[tool].tool;
}

const OWN: Readonly<Record<'move' | 'points', ToolEntry>> = {
  move: { key: 'm', icon: { line: 'M9 12a3 3 0 1 1-6 0 3 3 0 1 1 6 0M8.5 9.5 15 3M10.5 3H15v4.5' } },
  points: {
    key: 'p',
    icon: { line: 'M11 3.5a2 2 0 1 1-4 0 2 2 0 1 1 4 0', dashed: 'M9 5.5v6', dots: [[9, 13.5]] },
    short: say`Points`,
  },
};

export interface NudgeKeys {
  readonly coarse: string;
  readonly fine: string;
}

/** What a hint depends on besides the tool. */
export interface HintScene {
  readonly selected: Target | null;
  /** The body point that the guided run asks for. */
  readonly asked: BodyPointId | null;
  /** Whether it has a start on this frame. */
  /** Where the asked-for point may start: where it is proposed, or stood on the marked frame before. */
  readonly start: 'proposed' | 'before' | null;
  readonly follows: PathSubject;
  /** Whether the path that is followed has a place on this frame. */
  readonly hasPlace: boolean;
  /** Whether it was followed to this frame, and nobody has said so yet. */
  readonly isProposed: boolean;
  /** What is next on the usual way through a lesson (next-step.ts), or null. */
  readonly next: string | null;
  /** What the ground tool clicks; null while no size was typed. */
  readonly plan: GroundPlan | null;
  /** The keys that move a mark by 1 px and by 0.1 px; null where the coach has taken them away. */
  readonly nudge: NudgeKeys | null;
}

const HELD = say`Let go where it belongs. Esc cancels.`;
/** What to do next, in one line. */
export function hintFor(tool: ToolState, scene: HintScene): string {
  if (tool.name === 'holding' || tool.name === 'placing') return HELD;
  if (tool.name === 'idle' && scene.selected !== null) return selectedHint(tool, scene.selected, scene);
  switch (tool.tool) {
    case 'move':
      return (
        scene.next ?? say`Drag a point or shape to move it. Arrow keys step frames. “Lesson sheet” above leads back.`
      );
    case 'points':
      return pointsHint(scene);
    case 'path':
      return tool.name === 'following' ? HELD : pathHint(scene);
    case 'ground':
      return groundHint(tool.name === 'idle' ? 0 : tool.places.length, scene.plan);
    default:
      return `${placesHint(toolEntry(tool.tool).hints ?? [], tool)}${tool.name === 'idle' ? say` Esc puts the tool away.` : ''}`;
  }
}

/** By the places there are; the middle of a circle, while it is dragged from there, is no place on its edge. */
function placesHint(hints: readonly string[], tool: ToolState): string {
  const isMiddle = tool.tool === 'circle' && tool.name === 'dragging';
  const places = 'places' in tool && !isMiddle ? tool.places.length : 0;
  return hints[Math.min(places, hints.length - 1)] ?? '';
}

const BACK = say`Backspace goes back one, Esc cancels.`;

/** Which place comes next; of marks that were measured, with its own numbers. */
function groundHint(count: number, plan: GroundPlan | null): string {
  if (plan === null) return say`Say in the panel beside what lies on the ground, and how large it is.`;
  const enough = plan.layout === 'measured' && count >= FEWEST_MARKS ? say` Enter ends it.` : '';
  return say`Click ${nextPlaceWords(plan, count)}.${enough}${count === 0 ? '' : ` ${BACK}`}`;
}

/** E.g. "the end toward the ball", "place 3, 40 cm toward the target and 20 cm toward the player". */
export function nextPlaceWords({ layout, places }: GroundPlan, count: number): string {
  const words = groundPlaceWords(layout, count);
  const place = places[count];
  if (layout !== 'measured' || place === undefined) return words;
  const target =
    place.target < 0
      ? say`${typedLength(Math.abs(place.target))} ${shownUnit('cm')} away from the target`
      : say`${typedLength(Math.abs(place.target))} ${shownUnit('cm')} toward the target`;
  const ball =
    place.ball < 0
      ? say`${typedLength(Math.abs(place.ball))} ${shownUnit('cm')} toward the player`
      : say`${typedLength(Math.abs(place.ball))} ${shownUnit('cm')} toward the ball`;
  return say`${words}, ${target} and ${ball}`;
}

function selectedHint(tool: ToolState, selected: Target, { asked, nudge }: HintScene): string {
  if (tool.tool === 'points' && asked !== null) {
    // Named: it may be one that was chosen again, and the next click is not for it.
    const held = selected.kind === 'point' ? lowered(BODY_POINT_INFO[selected.point].label) : say`the shape`;
    return nudge === null
      ? say`Place ${placeWords(asked)}`
      : say`Place ${placeWords(asked)} ${nudge.coarse} move ${held}.`;
  }
  const moves = nudge === null ? '' : say`${nudge.coarse} move it 1 px, ${nudge.fine} 0.1 px. `;
  const hidden = selected.kind === 'point' ? say`H: I had to guess this spot. ` : '';
  return say`${moves}${hidden}Delete removes it. Esc: deselect.`;
}

function pointsHint({ asked, start, next }: HintScene): string {
  if (asked === null) return [say`All body points of this view are placed.`, next ?? ''].join(' ').trim();
  const place = say`Place ${placeWords(asked)}`;
  if (start === null) return place;
  return start === 'before'
    ? say`${place} Enter accepts the dashed ring, where it stood before.`
    : say`${place} Enter accepts the dashed ring, where it is proposed.`;
}

function pathHint({ follows, hasPlace, isProposed }: HintScene): string {
  if (hasPlace)
    return say`Drag its place, or click where it belongs. Delete takes it away, Backspace goes back a frame.`;
  if (isProposed)
    return say`Enter accepts the dashed ring and goes on; a click puts it elsewhere. Backspace goes back a frame.`;
  return CLICK_IT[follows];
}

const CLICK_IT: Readonly<Record<PathSubject, string>> = {
  clubhead: say`Click the clubhead on this frame; the next frame comes by itself. Backspace goes back a frame.`,
  hands: say`Click the hands on this frame; the next frame comes by itself. Backspace goes back a frame.`,
  head: say`Click the head on this frame; the next frame comes by itself. Backspace goes back a frame.`,
  ball: say`Click the ball on this frame; the next frame comes by itself. Backspace goes back a frame.`,
};

function placeWords(point: BodyPointId): string {
  const { label, where } = BODY_POINT_INFO[point];
  return `${lowered(label)}, ${where}.`;
}
