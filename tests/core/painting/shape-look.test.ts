import { describe, expect, test } from 'vitest';
import type { FrameMarks, Shape } from '../../../core/model/mark.ts';
import type { DrawItem } from '../../../core/painting/draw-item.ts';
import { drawListOf } from '../../../core/painting/draw-list.ts';
import { paint } from '../../../core/painting/paint.ts';
import { SHAPE_INKS, STYLE_COLOURS } from '../../../core/painting/styles.ts';
import { recordingContext } from '../../support/recording-context.ts';
import { within } from '../../support/within.ts';

const LINE = { kind: 'line', id: 'l', a: { x: 10, y: 10 }, b: { x: 90, y: 10 }, role: null, lengthMm: null } as const;
const VISIBLE = { x: 0, y: 0, width: 100, height: 100 };

function drawn(shape: Shape, look: 'plain' | 'then' = 'then'): readonly DrawItem[] {
  const marks: FrameMarks = { frame: { index: 0, pts: 0 }, points: {}, shapes: [shape] };
  return drawListOf(marks, { look, width: 100, height: 100, labels: { shapes: { [shape.id]: '45°' } } });
}

function painted(shape: Shape): readonly string[] {
  const { ctx, calls } = recordingContext();
  paint(ctx, drawn(shape), { scale: 1, visible: VISIBLE });
  return calls;
}

const widthsOf = (shape: Shape) =>
  painted(shape)
    .filter((call) => call.startsWith('lineWidth'))
    .map((call) => Number(call.split(' = ')[1]));

describe('a shape in a look of its own', () => {
  test('has its colour on line and label; dashes still tell then', () => {
    const calls = painted({ ...LINE, colour: 'pink' });
    expect(calls).toContain(`strokeStyle = ${SHAPE_INKS.pink}`);
    expect(calls).toContain(`fillStyle = ${SHAPE_INKS.pink}`);
    expect(calls.join()).not.toContain(STYLE_COLOURS.then);
    expect(calls.some((call) => /^setLineDash \[\d/.test(call))).toBe(true);
    expect(painted(LINE)).toContain(`strokeStyle = ${STYLE_COLOURS.then}`);
  });

  test('is thinner or thicker, with the same dark edge', () => {
    const [edge, line] = widthsOf(LINE);
    for (const [thickness, times] of [
      ['thin', 0.6],
      ['thick', 1.8],
    ] as const) {
      const [ownEdge, own] = widthsOf({ ...LINE, thickness });
      within((own ?? 0) / (line ?? 1), times, 1e-5, thickness);
      within((ownEdge ?? 0) - (own ?? 0), (edge ?? 0) - (line ?? 0), 1e-5, 'edge');
    }
  });

  test('has no label where the coach wants none', () => {
    const labels = (shape: Shape) => drawn(shape).filter(({ kind }) => kind === 'label').length;
    expect([labels(LINE), labels({ ...LINE, unlabelled: true })]).toEqual([1, 0]);
  });
});

test('an arrow has a head at its second end, never longer than itself', () => {
  const tips = (b: { x: number; y: number }) =>
    painted({ kind: 'arrow', id: 'a', a: { x: 10, y: 50 }, b })
      .filter((call) => /^(moveTo|lineTo)/.test(call))
      .map((call) => call.split(' ').slice(1).map(Number));
  // Tail to tip, then from one side of the head over the tip to the other.
  const [from, to, side = [], tip, other = []] = tips({ x: 90, y: 50 });
  expect([from, to, tip]).toEqual([
    [10, 50],
    [90, 50],
    [90, 50],
  ]);
  within((side[1] ?? 0) - 50, 50 - (other[1] ?? 0), 1e-5, 'both sides alike');
  expect(side[0]).toBeLessThan(90);
  for (const [x = 0] of tips({ x: 14, y: 50 })) expect(x).toBeGreaterThanOrEqual(10);
});

describe('a text on the picture', () => {
  const text = (x: number): Shape => ({ kind: 'text', id: 't', at: { x, y: 50 }, words: 'Here', colour: 'lime' });
  const placeOf = (shape: Shape) =>
    painted(shape)
      .find((call) => call.startsWith('fillText Here'))
      ?.split(' ')
      .slice(2)
      .map(Number);

  test('stands with its middle at its place, with labels of numbers or without', () => {
    expect(placeOf(text(50))?.[0]).toBe(50);
    expect(painted(text(50))).toContain(`fillStyle = ${SHAPE_INKS.lime}`);
  });

  test('is pushed inwards where the picture ends, and gone where its place is cropped away', () => {
    // Ten pixels a letter, and a pad on each side.
    expect(placeOf(text(2))?.[0]).toBeGreaterThan(20);
    expect(placeOf(text(150))).toBeUndefined();
  });
});
