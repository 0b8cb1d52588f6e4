import { expect, test } from 'vitest';
import type { FrameMarks, Shape } from '../../../core/model/mark.ts';
import {
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

test('a frame has one plumb and one yardstick at most', () => {
  let marks: FrameMarks = { ...BARE, shapes: [line('1'), line('2'), line('3')] };
  marks = withLineRole(marks, '1', 'plumb', null);
  marks = withLineRole(marks, '2', 'yardstick', 940);
  marks = withLineRole(marks, '3', 'plumb', null);
  expect(roles(marks)).toEqual([null, 'yardstick', 'plumb']);
  expect(withLineRole(marks, '2', null, null).shapes[1]).toEqual(line('2'));
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
