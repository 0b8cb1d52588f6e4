import { expect, test } from 'vitest';
import type { FrameMarks, Shape } from '../../../core/model/mark.ts';
import {
  withBall,
  withCarried,
  withHeadBox,
  withHidden,
  withLineRole,
  withoutTarget,
} from '../../../renderer/tools/change-marks.ts';
import { BARE } from './pointer-script.ts';

const line = (id: string): Shape => ({
  kind: 'line',
  id,
  a: { x: 0, y: 0 },
  b: { x: 9, y: 9 },
  role: null,
  lengthMm: null,
});
const box = (id: string): Shape => ({ kind: 'box', id, x: 0, y: 0, width: 5, height: 5, role: null });
const roles = (marks: FrameMarks) => marks.shapes.map((shape) => ('role' in shape ? shape.role : null));

test('several lines of a frame may be plumbs and known lengths, and each can be a plain line again', () => {
  let marks: FrameMarks = { ...BARE, shapes: [line('1'), line('2'), line('3'), line('4')] };
  marks = withLineRole(marks, '1', { role: 'plumb' });
  marks = withLineRole(marks, '2', { role: 'yardstick', lengthMm: 940, lengthUMm: 5, plane: 'ball' });
  marks = withLineRole(marks, '3', { role: 'plumb' });
  marks = withLineRole(marks, '4', { role: 'level' });
  expect(roles(marks)).toEqual(['plumb', 'yardstick', 'plumb', 'level']);
  expect(marks.shapes[1]).toMatchObject({ lengthMm: 940, lengthUMm: 5, plane: 'ball' });
  expect(withLineRole(marks, '2', { role: null }).shapes[1]).toEqual(line('2'));
});

test('a line that becomes a plumb is shown on all frames, and stays off them where the coach took it off', () => {
  const plumb = withLineRole({ ...BARE, shapes: [line('1')] }, '1', { role: 'plumb' });
  expect(plumb.shapes[0]).toMatchObject({ carried: true });
  const pinned = withCarried(plumb, '1', false);
  expect(withLineRole(pinned, '1', { role: 'level' }).shapes[0]?.carried).toBeUndefined();
  expect(
    withLineRole({ ...BARE, shapes: [{ ...line('1'), carried: true }] }, '1', { role: null }).shapes[0],
  ).toMatchObject({
    carried: true,
  });
});

test('a circle can be the ball, and a plain circle again', () => {
  const circle: Shape = { kind: 'circle', id: '1', centre: { x: 5, y: 5 }, radius: 4 };
  const marks: FrameMarks = { ...BARE, shapes: [circle, line('2')] };
  const ball = withBall(marks, '1', true);
  expect(ball.shapes[0]).toEqual({ ...circle, role: 'ball' });
  expect(withBall(ball, '1', false)).toEqual(marks);
  expect(withBall(marks, '2', true)).toEqual(marks);
});

test('a frame has one head box at most, and it can be a plain box again', () => {
  const marks: FrameMarks = { ...BARE, shapes: [box('1'), box('2')] };
  const second = withHeadBox(withHeadBox(marks, '1', true), '2', true);
  expect(roles(second)).toEqual([null, 'head-box']);
  expect(roles(withHeadBox(second, '1', false))).toEqual([null, 'head-box']);
  expect(roles(withHeadBox(second, '2', false))).toEqual([null, null]);
});

test('what is not there cannot be changed', () => {
  expect(withHidden(BARE, 'ball', true)).toBe(BARE);
  expect(withoutTarget(BARE, { kind: 'shape', id: 'none', handle: null })).toEqual(BARE);
});

test('a shape is carried over all frames, and pinned to its own again as if nothing had been', () => {
  const marks = { ...BARE, shapes: [line('l')] };
  const carried = withCarried(marks, 'l', true);
  expect(carried.shapes).toEqual([{ ...line('l'), carried: true }]);
  expect(withCarried(carried, 'l', false)).toEqual(marks);
  expect(Object.keys(withCarried(carried, 'l', false).shapes[0] ?? {})).not.toContain('carried');
});
