import { BODY_POINT_INFO } from '../../core/model/body-points.ts';
import type { BodyPointId } from '../../core/model/body-points.ts';
import type { ToolName, ToolState } from '../tools/tool.ts';

export const TOOL_LABELS: Readonly<Record<ToolName, string>> = {
  move: 'Move',
  points: 'Body points',
  line: 'Line',
  angle: 'Angle',
  box: 'Box',
  circle: 'Circle',
  free: 'Free line',
  path: 'Path',
};

/** The key that takes a tool in hand: a letter of its name, or of what it does (draw, track). */
export const TOOL_KEYS: Readonly<Record<ToolName, string>> = {
  move: 'm',
  points: 'p',
  line: 'l',
  angle: 'a',
  box: 'b',
  circle: 'c',
  free: 'd',
  path: 't',
};

const SELECTED = 'Arrow keys move it 1 px, with Shift 0.1 px. Delete removes it. Esc lets go of it.';

const HINTS: Readonly<Record<Exclude<ToolName, 'points' | 'angle'>, string>> = {
  move: 'Take a mark to move it. Arrow keys step through the frames.',
  line: 'Drag a line, or click its two ends.',
  box: 'Drag a box from corner to corner, or click two corners.',
  circle: 'Click three or more places on the edge, or drag from the middle to the edge.',
  free: 'Draw while you press.',
  path: 'Click it on this frame; the next frame comes by itself. Backspace goes back one.',
};

const COLLECTING =
  'Click more places on the edge. Enter or a second click on the last one ends it, Backspace goes back one.';

const ANGLE_STEPS = [
  'Click the end of one arm.',
  'Now the corner of the angle.',
  'Now the end of the other arm.',
] as const;

/** What to do next, in one line. */
export function hintFor(tool: ToolState, isSelected: boolean, asked: BodyPointId | null): string {
  if (isSelected && tool.name === 'idle') {
    if (tool.tool !== 'points' || asked === null) return SELECTED;
    return `Arrow keys move it 1 px, with Shift 0.1 px. Next: ${placeWords(asked)}`;
  }
  switch (tool.tool) {
    case 'points':
      return asked === null ? 'All body points of this view are placed.' : `Place ${placeWords(asked)}`;
    case 'angle':
      return ANGLE_STEPS[tool.name === 'idle' ? 0 : Math.min(2, tool.places.length)] ?? ANGLE_STEPS[0];
    case 'move':
    case 'line':
    case 'box':
    case 'free':
    case 'path':
      return HINTS[tool.tool];
    case 'circle':
      return tool.name === 'collecting' || tool.name === 'pressing' ? COLLECTING : HINTS.circle;
  }
}

function placeWords(point: BodyPointId): string {
  const { label, where } = BODY_POINT_INFO[point];
  return `${label.toLowerCase()}, ${where}.`;
}
