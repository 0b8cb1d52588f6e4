import { expect, test } from 'vitest';
import type { BookClip, BookSwing } from '../../../../core/model/book.ts';
import { EMPTY_PAGE } from '../../../../core/model/lesson-page.ts';
import { MOST_KEPT_CHARACTERS, MOST_KEPT_EDITS, inverseOf, latestKept } from '../../../../core/model/edit.ts';
import type { Edit } from '../../../../core/model/edit.ts';
import type { FrameMarks } from '../../../../core/model/mark.ts';
import { emptyHistory, redoing, undoing, withDone } from '../../../../renderer/swing/state/history.ts';
import { marksOn, withEdit } from '../../../../renderer/swing/state/swing-edit.ts';

const CLIP: BookClip = {
  id: 'clip',
  swingId: 'swing',
  view: 'face-on',
  originalName: 'a.mp4',
  kept: null,
  sha256: '0'.repeat(64),
  bytes: 1,
  stored: 'copied',
  frameCount: 10,
  width: 100,
  height: 50,
  timebase: { num: 1, den: 120 },
  nominalRate: { num: 120, den: 1 },
  captureRate: null,
  checkpoints: {},
  marks: [],
};
const SWING: BookSwing = {
  student: { id: 'student', firstName: 'Ada', lastName: '', handedness: 'left' },
  lesson: { id: 'lesson', studentId: 'student', date: '2026-05-12', club: '7 iron', handedness: 'left', note: '' },
  swing: { id: 'swing', lessonId: 'lesson', label: 'Swing 1' },
  clips: [CLIP],
  pins: [],
  page: EMPTY_PAGE,
};

function bare(index: number): FrameMarks {
  return { frame: { index, pts: index }, points: {}, shapes: [] };
}
function ballAt(index: number, x: number): FrameMarks {
  return { ...bare(index), points: { ball: { x, y: 1 / 3, hidden: false } } };
}

/** Places the ball here and there, and names and renames a frame. */
const EDITS: readonly Edit[] = [
  { kind: 'marks', swingId: 'swing', clipId: 'clip', before: bare(4), after: ballAt(4, 0.1) },
  { kind: 'marks', swingId: 'swing', clipId: 'clip', before: bare(2), after: ballAt(2, 7) },
  {
    kind: 'checkpoint',
    swingId: 'swing',
    clipId: 'clip',
    checkpoint: 'top',
    before: null,
    after: { index: 4, pts: 4, ticks: 1 },
  },
  { kind: 'marks', swingId: 'swing', clipId: 'clip', before: ballAt(4, 0.1), after: ballAt(4, 0.1 + 0.2) },
  {
    kind: 'checkpoint',
    swingId: 'swing',
    clipId: 'clip',
    checkpoint: 'top',
    before: { index: 4, pts: 4, ticks: 1 },
    after: { index: 5, pts: 5, ticks: 1 },
  },
  { kind: 'marks', swingId: 'swing', clipId: 'clip', before: ballAt(2, 7), after: bare(2) },
  {
    kind: 'capture-rate',
    ...{ swingId: 'swing', clipId: 'clip' },
    before: null,
    after: { framesPerSecond: { num: 240, den: 1 }, confirmed: true },
  },
  { kind: 'view', swingId: 'swing', clipId: 'clip', before: 'face-on', after: 'down-the-line' },
  {
    kind: 'pins',
    swingId: 'swing',
    before: [],
    after: [{ id: 'tempo', aspect: 'value', view: 'face-on', checkpoint: 'impact' }],
  },
];

test('undo takes every edit back exactly, redo makes it again exactly', () => {
  const stages = EDITS.reduce<BookSwing[]>((all, edit) => [...all, withEdit(all.at(-1) ?? SWING, edit)], [SWING]);
  let history = EDITS.reduce(withDone<Edit>, emptyHistory<Edit>());
  let swing = stages.at(-1) ?? SWING;
  for (const stage of stages.slice(0, -1).toReversed()) {
    const step = undoing(history);
    if (step === null) throw new Error('an edit is missing');
    swing = withEdit(swing, inverseOf(step.edit));
    history = step.history;
    expect(swing).toEqual(stage);
  }
  expect(undoing(history)).toBeNull();
  for (const stage of stages.slice(1)) {
    const step = redoing(history);
    if (step === null) throw new Error('an edit is missing');
    swing = withEdit(swing, step.edit);
    history = step.history;
    expect(swing).toEqual(stage);
  }
  expect(redoing(history)).toBeNull();
});

test('a new edit ends what could be made again', () => {
  const undone = undoing(withDone(emptyHistory<{ turn: number }>(), { turn: 1 }));
  expect(redoing(withDone(undone?.history ?? emptyHistory<{ turn: number }>(), { turn: 2 }))).toBeNull();
});

test('an edit and its inverse leave the swing as it was; twice inverse is the edit', () => {
  for (const edit of EDITS) expect(inverseOf(inverseOf(edit))).toEqual(edit);
});

test('bare marks leave no entry, and a frame without an entry has bare marks', () => {
  const [first] = EDITS;
  if (first === undefined) throw new Error('no edit');
  const marked = withEdit(SWING, first);
  expect(marked.clips[0]?.marks).toHaveLength(1);
  expect(withEdit(marked, inverseOf(first)).clips[0]?.marks).toEqual([]);
  expect(marksOn(CLIP, { index: 9, pts: 9 })).toEqual(bare(9));
});

test('an edit of another swing, or of a clip that is gone, changes nothing', () => {
  const edit: Edit = { kind: 'marks', swingId: 'swing', clipId: 'gone', before: bare(1), after: ballAt(1, 1) };
  expect(withEdit(SWING, edit)).toEqual(SWING);
  expect(withEdit(SWING, { ...edit, swingId: 'other', clipId: 'clip' })).toEqual(SWING);
});

test('the latest edits are kept, so many and so large; the very latest always', () => {
  const edits = Array.from({ length: MOST_KEPT_EDITS + 5 }, (_, turn) => ({ turn }));
  expect(latestKept(edits, () => 10)).toEqual(edits.slice(5));
  const large = edits.slice(0, 10);
  expect(latestKept(large, () => MOST_KEPT_CHARACTERS / 4)).toEqual(large.slice(6));
  expect(latestKept(large, () => 2 * MOST_KEPT_CHARACTERS)).toEqual(large.slice(9));
  expect(latestKept([], () => 1)).toEqual([]);
});
