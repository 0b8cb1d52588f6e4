import { expect, test } from 'vitest';
import type { DrawItem } from '../../../core/painting/draw-item.ts';
import { drawListOf } from '../../../core/painting/draw-list.ts';
import type { LabelMemory } from '../../../core/painting/label-places.ts';
import {
  GOAL_COLOUR,
  GOAL_FILL,
  STYLE_COLOURS,
  STYLES,
  OUTLINE_COLOUR,
  PLATE_COLOUR,
} from '../../../core/painting/styles.ts';
import { paint } from '../../../core/painting/paint.ts';
import { recordingContext } from '../../support/recording-context.ts';
import { EVERY_MARK } from './marks.ts';

const SEGMENT = { kind: 'segment', a: { x: 0, y: 0 }, b: { x: 40, y: 0 }, weight: 'line', ends: 'plain' } as const;

function painted(items: readonly DrawItem[], view: Parameters<typeof paint>[2]): readonly string[] {
  const { ctx, calls } = recordingContext();
  paint(ctx, items, view);
  return calls;
}

test('a stroke is drawn dark and wider first, then in its colour; dashes only where the look has them', () => {
  expect(painted([{ ...SEGMENT, look: 'then' }], { scale: 2 })).toEqual([
    'save',
    'lineJoin = round',
    'beginPath',
    'moveTo 0 0',
    'lineTo 40 0',
    'lineCap = round',
    'setLineDash []',
    'strokeStyle = #000000',
    'lineWidth = 2.375',
    'stroke',
    'lineCap = butt',
    'setLineDash [3.5 2.5]',
    'strokeStyle = #E69F00',
    'lineWidth = 1.125',
    'stroke',
    'restore',
  ]);
  const now = painted([{ ...SEGMENT, look: 'now' }], { scale: 2 });
  expect(now.filter((call) => call.startsWith('setLineDash'))).toEqual(['setLineDash []', 'setLineDash []']);
});

test('a guide is dashed in every look', () => {
  for (const look of STYLES) {
    const calls = painted([{ ...SEGMENT, look, weight: 'guide' }], { scale: 2 });
    expect(calls.filter((call) => call.startsWith('setLineDash'))).toEqual(['setLineDash []', 'setLineDash [2 2]']);
  }
});

test('a goal is a row of dots, each dark and wider first, in its own colour whatever the look', () => {
  for (const look of STYLES) {
    const calls = painted([{ ...SEGMENT, look, weight: 'goal' }], { scale: 2 });
    const strokes = calls.filter((call) => /^(lineCap|setLineDash|strokeStyle)/.test(call));
    expect(strokes).toEqual([
      ...['lineCap = round', 'setLineDash [0.05 4]', 'strokeStyle = #000000'],
      ...['lineCap = round', 'setLineDash [0.05 4]', `strokeStyle = ${GOAL_COLOUR}`],
    ]);
  }
});

test('what is on target lies under all lines, also where it comes after them', () => {
  const wedge = { kind: 'wedge', centre: { x: 1, y: 2 }, radius: 30, start: 0, end: 1 } as const;
  const calls = painted([{ ...SEGMENT, look: 'plain' }, wedge], { scale: 1 });
  expect(calls.slice(2, 8)).toEqual([
    ...['beginPath', 'moveTo 1 2', 'arc 1 2 30 0 1', 'closePath'],
    ...[`fillStyle = ${GOAL_FILL}`, 'fill'],
  ]);
  expect(calls.indexOf('stroke')).toBeGreaterThan(calls.indexOf('fill'));
});

test('widths are constant on the target: they shrink in the picture as the scale grows', () => {
  const widths = (scale: number, unit: number) =>
    painted([{ ...SEGMENT, look: 'now' }], { scale, unit })
      .filter((call) => call.startsWith('lineWidth'))
      .map((call) => Number(call.slice('lineWidth = '.length)) * scale);
  expect(widths(4, 1)).toEqual(widths(1, 1));
  expect(widths(1, 2)).toEqual(widths(1, 1).map((width) => 2 * width));
});

test('a point is a dot of 5 px, a hidden one hollow and dotted; both lie on the exact place', () => {
  const seen = painted([{ kind: 'point', at: { x: 3, y: 4 }, look: 'plain', hidden: false }], { scale: 1 });
  const hidden = painted([{ kind: 'point', at: { x: 3, y: 4 }, look: 'plain', hidden: true }], { scale: 1 });
  expect(seen.filter((call) => call === 'fill')).toHaveLength(2);
  expect(seen.filter((call) => call.startsWith('arc'))[1]).toMatch(/^arc 3 4 2.5 0 6.283/);
  expect(hidden).not.toContain('fill');
  expect(hidden).toContain('setLineDash [2.1 2.09]');
  for (const calls of [seen, hidden])
    expect(calls.filter((call) => call.startsWith('arc')).every((call) => call.startsWith('arc 3 4 '))).toBe(true);
});

test('a line between points leaves both and what is round them free, and is left out between points that nearly touch', () => {
  const between = (x: number) =>
    painted([{ ...SEGMENT, b: { x, y: 0 }, weight: 'stick', ends: 'points', look: 'now' }], { scale: 1 }).filter(
      (call) => call.startsWith('moveTo') || call.startsWith('lineTo'),
    );
  expect(between(40)).toEqual(['moveTo 5 0', 'lineTo 35 0']);
  expect(between(10)).toEqual([]);
  expect(between(0)).toEqual([]);
});

test('a label is a plate and a text on it, set in target pixels, inside what is visible', () => {
  const item = { kind: 'label', at: { x: 99, y: 1 }, text: '12.3°', look: 'plain', of: [] } as const;
  const calls = painted([item], { scale: 3, visible: { x: 0, y: 0, width: 100, height: 50 } });
  expect(calls.slice(2, 4)).toEqual(['save', 'scale 0.333333 0.333333']);
  expect(calls).toContain('font = 600 13px "Source Sans 3"');
  expect(calls).toContain(`fillStyle = ${PLATE_COLOUR}`);
  const [x = 0, y = 0, width = 0, height = 0] = (calls.find((call) => call.startsWith('fillRect')) ?? '')
    .split(' ')
    .slice(1)
    .map(Number);
  expect(x >= 0 && y >= 0 && x + width <= 300 && y + height <= 150).toBe(true);
  expect(calls.indexOf('fillStyle = #F7F7F2')).toBeGreaterThan(calls.findIndex((call) => call.startsWith('fillRect')));
});

test('every stroke of every look has its outline beneath it', () => {
  for (const look of STYLES) {
    const calls = painted(drawListOf(EVERY_MARK, { look, width: 360, height: 480 }), { scale: 1 });
    const colours = calls.filter((call) => call.startsWith('strokeStyle'));
    expect(colours.length).toBeGreaterThan(0);
    for (let i = 0; i < colours.length; i += 2)
      expect(colours.slice(i, i + 2)).toEqual([
        `strokeStyle = ${OUTLINE_COLOUR}`,
        `strokeStyle = ${STYLE_COLOURS[look]}`,
      ]);
  }
});

test('saves and restores are paired, so the context stays as it was', () => {
  const labels = { pointNames: true };
  const calls = painted(drawListOf(EVERY_MARK, { look: 'then', width: 360, height: 480, labels }), { scale: 1 });
  expect(calls.filter((call) => call === 'save')).toHaveLength(calls.filter((call) => call === 'restore').length);
});

test('texts that are remembered stay where they lay, and the one that moves finds a place beside them', () => {
  const visible = { x: 0, y: 0, width: 400, height: 300 };
  const still = { kind: 'label', at: { x: 200, y: 150 }, text: 'Hip line', look: 'plain', of: [] } as const;
  const moving = (x: number) => ({ ...still, at: { x, y: 152 }, text: 'Spine' }) as const;
  const placesOf = (items: readonly DrawItem[], labels?: LabelMemory) =>
    painted(items, { scale: 1, visible, ...(labels === undefined ? {} : { labels }) }).filter((call) =>
      call.startsWith('fillText'),
    );
  // The moving text comes first and would take the other's place.
  const before = [moving(60), still];
  const after = [moving(201), still];
  const labels: LabelMemory = new Map();
  const [, lay] = placesOf(before, labels);
  const [moved, stays] = placesOf(after, labels);
  expect(stays).toBe(lay);
  expect(placesOf(after)[1]).not.toBe(lay);
  expect(moved).not.toBe(lay?.replace('Hip line', 'Spine'));
  // Only what is still shown is remembered.
  expect([...labels.keys()]).toHaveLength(2);
  labels.clear();
  expect(placesOf(after, labels)).toEqual(placesOf(after));
});
