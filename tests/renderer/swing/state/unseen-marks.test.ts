import { afterEach, expect, test } from 'vitest';
import type { FrameMarks, Shape } from '../../../../core/model/mark.ts';
import {
  changedTargets,
  forgetUnseen,
  leftUnseen,
  noteUnseen,
  unseenMarks,
  unseenOn,
} from '../../../../renderer/swing/state/unseen-marks.ts';
import { unseenRings } from '../../../../renderer/bench/surface/rings.ts';
import { BARE } from '../../tools/pointer-script.ts';

const { pts } = BARE.frame;
const LINE: Shape = { kind: 'line', id: 'l', a: { x: 0, y: 0 }, b: { x: 9, y: 0 }, role: null, lengthMm: null };
const PATH: Shape = { kind: 'path', id: 'p', subject: 'clubhead', places: [{ x: 1, y: 2, pts }] };
const at = (x: number) => ({ x, y: 5, hidden: false });

afterEach(() => unseenMarks.update(() => []));

test('what was placed or moved differs; what stayed, was hidden or was taken away does not', () => {
  const before: FrameMarks = { ...BARE, points: { ball: at(1), clubhead: at(2), tailbone: at(3) }, shapes: [LINE] };
  const hidden = { ...at(1), hidden: true };
  const after: FrameMarks = { ...before, points: { ball: hidden, clubhead: at(4), 'neck-base': at(6) } };
  expect(changedTargets(before, after)).toEqual([
    { kind: 'point', point: 'neck-base' },
    { kind: 'point', point: 'clubhead' },
  ]);
  const moved = { ...LINE, b: { x: 10, y: 0 } };
  expect(changedTargets(before, { ...before, shapes: [moved, PATH] })).toEqual([
    { kind: 'shape', id: 'l', handle: null },
    { kind: 'shape', id: 'p', handle: null },
  ]);
  expect(changedTargets(before, BARE)).toEqual([]);
});

test('is noted by clip and time stamp, each mark once, until somebody has seen it', () => {
  noteUnseen('clip', pts, []);
  expect(unseenMarks.get()).toEqual([]);
  const [ball, line] = [
    { kind: 'point', point: 'ball' },
    { kind: 'shape', id: 'l', handle: null },
  ] as const;
  noteUnseen('clip', pts, [ball]);
  noteUnseen('clip', pts, [line]);
  noteUnseen('clip', pts, [ball]);
  noteUnseen('other', pts, [ball]);
  expect(unseenOn(unseenMarks.get(), 'clip', pts)?.targets).toEqual([line, ball]);
  expect(unseenOn(unseenMarks.get(), 'clip', pts + 1)).toBeNull();
  forgetUnseen('clip', pts);
  expect(unseenMarks.get().map(({ clipId }) => clipId)).toEqual(['other']);
});

test('what was taken back meanwhile is nothing to look at', () => {
  const targets = [
    { kind: 'point', point: 'ball' },
    { kind: 'point', point: 'tailbone' },
    { kind: 'shape', id: 'l', handle: null },
  ] as const;
  const marks: FrameMarks[] = [{ ...BARE, points: { ball: at(1) } }];
  expect(leftUnseen({ marks }, { clipId: 'clip', pts, targets })).toEqual([targets[0]]);
  expect(leftUnseen({ marks }, { clipId: 'clip', pts: pts + 1, targets })).toEqual([]);
});

test('its rings lie on the points, on the handles of a shape, and on the path where it is on this frame', () => {
  const places = [
    { x: 1, y: 2, pts },
    { x: 7, y: 8, pts: pts + 512 },
  ];
  const marks: FrameMarks = { ...BARE, points: { ball: at(1) }, shapes: [LINE, { ...PATH, places }] };
  const rings = unseenRings(marks, [
    { kind: 'point', point: 'ball' },
    { kind: 'point', point: 'tailbone' },
    { kind: 'shape', id: 'l', handle: null },
    { kind: 'shape', id: 'p', handle: null },
    { kind: 'shape', id: 'gone', handle: null },
  ]);
  expect(rings.map((ring) => [ring.kind, ring.at.x])).toEqual([
    ['unseen', 1],
    ['unseen', 0],
    ['unseen', 9],
    ['unseen', 1],
  ]);
});
