import { expect, test } from 'vitest';
import type { Edit } from '../../../core/model/edit.ts';
import type { FrameMarks, Shape } from '../../../core/model/mark.ts';
import { editInWords } from '../../../renderer/swing/edit-words.ts';

const BARE: FrameMarks = { frame: { index: 118, pts: 7 }, points: {}, shapes: [] };
const tailbone = (x: number, hidden = false): FrameMarks => ({ ...BARE, points: { tailbone: { x, y: 1, hidden } } });
const box: Shape = { kind: 'box', id: 'b', x: 0, y: 0, width: 1, height: 1, role: null };
const marks = (before: FrameMarks, after: FrameMarks): Edit => ({
  kind: 'marks',
  ...{ swingId: 'w', clipId: 'c' },
  before,
  after,
});

test.each([
  [marks(BARE, tailbone(1)), 'tailbone placed on frame 118'],
  [marks(tailbone(1), tailbone(2)), 'tailbone moved on frame 118'],
  [marks(tailbone(1), tailbone(1, true)), 'tailbone hidden on frame 118'],
  [marks(tailbone(1, true), tailbone(1)), 'tailbone no longer hidden on frame 118'],
  [marks(tailbone(1), BARE), 'tailbone deleted on frame 118'],
  [marks(BARE, { ...BARE, shapes: [box] }), 'box drawn on frame 118'],
  [marks({ ...BARE, shapes: [box] }, { ...BARE, shapes: [{ ...box, role: 'head-box' }] }), 'box changed on frame 118'],
  [marks({ ...BARE, shapes: [box] }, BARE), 'box deleted on frame 118'],
  [marks(BARE, { ...tailbone(1), shapes: [box] }), '2 marks changed on frame 118'],
])('what was marked is told in few words', (edit, words) => {
  expect(editInWords(edit, 'w')).toBe(words);
});

test('a name, a rate, a view and a pin are told too, and that they were in another swing', () => {
  const of = { swingId: 'w', clipId: 'c' };
  const top = { index: 9, pts: 9, ticks: 1 };
  const edits: readonly Edit[] = [
    { kind: 'checkpoint', ...of, checkpoint: 'top', before: null, after: top },
    { kind: 'checkpoint', ...of, checkpoint: 'lead-arm-level', before: top, after: null },
    { kind: 'capture-rate', ...of, before: null, after: null },
    { kind: 'view', ...of, before: 'face-on', after: 'down-the-line' },
    {
      kind: 'pins',
      swingId: 'w',
      before: [],
      after: [{ id: 'tempo', aspect: 'value', view: 'face-on', checkpoint: 'impact' }],
    },
  ];
  expect(edits.map((edit) => editInWords(edit, 'w'))).toEqual([
    'frame 9 named top',
    'lead arm level un-named',
    'real rate changed',
    'view changed to down the line',
    'reading put on the still',
  ]);
  expect(edits.map((edit) => editInWords(edit, 'x')).every((words) => words.endsWith(', in another swing'))).toBe(true);
});
