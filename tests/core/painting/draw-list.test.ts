import { expect, test } from 'vitest';
import { drawListOf } from '../../../core/painting/draw-list.ts';
import type { FrameMarks } from '../../../core/model/mark.ts';
import { EVERY_MARK } from './marks.ts';

const PICTURE = { width: 360, height: 480 };
const NOTHING: FrameMarks = { frame: { index: 0, pts: 0 }, points: {}, shapes: [] };
const line = { look: 'now', weight: 'line' } as const;
const stick = { look: 'now', weight: 'stick' } as const;

test('everything marked is drawn once: lines between points, shapes, points, then labels', () => {
  const labels = { shapes: { yard: '100 cm', angle: '90.0° ± 1.2°' }, sticks: { spine: '41.2° ± 1.3°' } };
  expect(drawListOf(EVERY_MARK, { ...PICTURE, look: 'now', labels })).toEqual([
    { kind: 'segment', a: { x: 120, y: 280 }, b: { x: 190, y: 200 }, ends: 'points', ...stick },
    { kind: 'segment', a: { x: 190, y: 200 }, b: { x: 220, y: 170 }, ends: 'points', ...stick },
    { kind: 'segment', a: { x: 10, y: 20 }, b: { x: 110, y: 20 }, ends: 'plain', ...line },
    { kind: 'segment', a: { x: 200, y: 460 }, b: { x: 300, y: 460 }, ends: 'ticks', ...line },
    {
      kind: 'polyline',
      points: [
        { x: 60, y: 200 },
        { x: 60, y: 300 },
        { x: 160, y: 300 },
      ],
      ...line,
    },
    // From straight up (-90 degrees) a quarter turn clockwise; radius 5 % of 480.
    { kind: 'arc', centre: { x: 60, y: 300 }, radius: 24, start: -Math.PI / 2, end: 0, ...stick },
    { kind: 'box', x: 195, y: 145, width: 50, height: 55, ...line },
    { kind: 'circle', centre: { x: 320, y: 440 }, radius: 20, ...line },
    { kind: 'point', at: { x: 220, y: 170 }, hidden: false, look: 'now' },
    { kind: 'point', at: { x: 190, y: 200 }, hidden: false, look: 'now' },
    { kind: 'point', at: { x: 120, y: 280 }, hidden: false, look: 'now' },
    { kind: 'point', at: { x: 180, y: 360 }, hidden: true, look: 'now' },
    { kind: 'point', at: { x: 320, y: 440 }, hidden: false, look: 'now' },
    {
      kind: 'label',
      at: { x: 155, y: 240 },
      text: '41.2° ± 1.3°',
      look: 'now',
      of: [expect.objectContaining({ kind: 'segment' })],
    },
    {
      kind: 'label',
      at: { x: 250, y: 460 },
      text: '100 cm',
      look: 'now',
      of: [expect.objectContaining({ ends: 'ticks' })],
    },
    {
      kind: 'label',
      at: { x: 60 + 24 * Math.cos(-Math.PI / 4), y: 300 + 24 * Math.sin(-Math.PI / 4) },
      text: '90.0° ± 1.2°',
      look: 'now',
      of: [expect.objectContaining({ kind: 'polyline' }), expect.objectContaining({ kind: 'arc' })],
    },
  ]);
});

test('nothing marked, nothing drawn', () => {
  expect(drawListOf(NOTHING, { ...PICTURE, look: 'plain', labels: { pointNames: true } })).toEqual([]);
});

test('a point that stands alone gives no line, and carries its name only when asked', () => {
  const marks: FrameMarks = { ...NOTHING, points: { tailbone: { x: 5, y: 6, hidden: false } } };
  const point = { kind: 'point', at: { x: 5, y: 6 }, hidden: false, look: 'plain' };
  expect(drawListOf(marks, { ...PICTURE, look: 'plain' })).toEqual([point]);
  expect(drawListOf(marks, { ...PICTURE, look: 'plain', labels: { pointNames: true } })).toEqual([
    point,
    { kind: 'label', at: { x: 5, y: 6 }, text: 'Tailbone', look: 'plain', of: [point] },
  ]);
});

test('the arc of an angle never shows its outside, whichever arm comes first', () => {
  const angle = (a: { x: number; y: number }, b: { x: number; y: number }): FrameMarks => ({
    ...NOTHING,
    shapes: [{ id: 'x', kind: 'angle', vertex: { x: 100, y: 100 }, a, b }],
  });
  for (let degrees = 0; degrees < 360; degrees += 15) {
    const turned = {
      x: 100 + 50 * Math.cos((degrees * Math.PI) / 180),
      y: 100 + 50 * Math.sin((degrees * Math.PI) / 180),
    };
    for (const marks of [angle({ x: 150, y: 100 }, turned), angle(turned, { x: 150, y: 100 })]) {
      const arc = drawListOf(marks, { ...PICTURE, look: 'plain' }).find((item) => item.kind === 'arc');
      const sweep = arc === undefined ? Number.NaN : arc.end - arc.start;
      expect(sweep).toBeGreaterThanOrEqual(0);
      expect(sweep).toBeLessThanOrEqual(Math.PI + 1e-9);
    }
  }
});

test('an angle with an arm of no length has no arc and no number that is not finite', () => {
  const same = { x: 100, y: 100 };
  const marks: FrameMarks = {
    ...NOTHING,
    shapes: [{ id: 'x', kind: 'angle', vertex: same, a: same, b: { x: 1, y: 2 } }],
  };
  const arms = { kind: 'polyline', points: [same, same, { x: 1, y: 2 }], look: 'plain', weight: 'line' };
  expect(drawListOf(marks, { ...PICTURE, look: 'plain', labels: { shapes: { x: 'no angle' } } })).toEqual([
    arms,
    { kind: 'label', at: same, text: 'no angle', look: 'plain', of: [arms] },
  ]);
});

test('ground marks and straight edges are thin everywhere, and named on their own frame only', () => {
  const places = [
    { x: 10, y: 10 },
    { x: 50, y: 11 },
    { x: 90, y: 10 },
  ];
  const marks: FrameMarks = {
    ...NOTHING,
    shapes: [
      { id: 'e', kind: 'edge', places },
      { id: 'p', kind: 'line', a: { x: 0, y: 0 }, b: { x: 0, y: 9 }, role: 'plumb', lengthMm: null },
    ],
  };
  const labels = { shapes: { e: 'straight edge', p: 'plumb' } };
  const drawn = (quiet: readonly string[]) =>
    drawListOf(marks, { ...PICTURE, look: 'plain', labels, quiet: new Set(quiet) });
  const weights = (items: ReturnType<typeof drawn>) =>
    items.flatMap((item) => (item.kind === 'polyline' || item.kind === 'segment' ? item.weight : []));
  const names = (items: ReturnType<typeof drawn>) => items.flatMap((item) => (item.kind === 'label' ? item.text : []));
  expect(weights(drawn([]))).toEqual(['stick', 'line']);
  expect(weights(drawn(['e', 'p']))).toEqual(['stick', 'stick']);
  expect(names(drawn([]))).toEqual(['straight edge', 'plumb']);
  expect(names(drawn(['e', 'p']))).toEqual(['plumb']);
});

test('an edge of one place, as while it is clicked, is a dot', () => {
  const marks: FrameMarks = { ...NOTHING, shapes: [{ id: 'e', kind: 'edge', places: [{ x: 10, y: 10 }] }] };
  expect(drawListOf(marks, { ...PICTURE, look: 'plain' })).toEqual([
    { kind: 'place', at: { x: 10, y: 10 }, look: 'plain' },
  ]);
});
