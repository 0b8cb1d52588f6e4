import { randomUUID } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import type { Book } from '../../../core/book/book.ts';
import type { Clip } from '../../../core/model/book.ts';
import { MOST_KEPT_EDITS } from '../../../core/model/edit.ts';
import { EMPTY_PAGE } from '../../../core/model/lesson-page.ts';
import type { Edit } from '../../../core/model/edit.ts';
import type { FrameMarks } from '../../../core/model/mark.ts';
import { expectThrown } from '../../support/trouble.ts';
import { samplePage } from '../swing-file/sample-swing.ts';
import { addSample, addSampleClip, sampleFrame, sampleIndex } from './sample.ts';
import { newBook, reopen } from './with-book.ts';

interface Sample {
  readonly book: Book;
  readonly clip: Clip;
  readonly lessonId: string;
  readonly swingId: string;
}

async function bookWithClip(): Promise<Sample> {
  const book = newBook();
  const { swing, lesson } = addSample(book);
  return { book, clip: await addSampleClip(book, swing.id), lessonId: lesson.id, swingId: swing.id };
}

const bare = (index: number): FrameMarks => ({ frame: sampleFrame(index), points: {}, shapes: [] });
const ballAt = (index: number, x: number): FrameMarks => ({
  ...bare(index),
  points: { ball: { x, y: 1 / 3, hidden: false } },
});
const named = (index: number) => ({ ...sampleFrame(index), ticks: index % 2 === 0 ? 3004 : 3002 });

/** One of each kind. */
function editsOf({ clip, swingId }: Sample): readonly Edit[] {
  const of = { swingId, clipId: clip.id };
  const circle = { id: randomUUID(), kind: 'circle', centre: { x: 0.1, y: 0.2 }, radius: 0.1 + 0.2 } as const;
  return [
    { kind: 'marks', ...of, before: bare(2), after: ballAt(2, 0.1 + 0.2) },
    { kind: 'checkpoint', ...of, checkpoint: 'top', before: null, after: named(2) },
    { kind: 'marks', ...of, before: ballAt(2, 0.1 + 0.2), after: { ...ballAt(2, 7), shapes: [circle] } },
    { kind: 'checkpoint', ...of, checkpoint: 'top', before: named(2), after: named(3) },
    {
      kind: 'capture-rate',
      ...of,
      before: clip.captureRate,
      after: { framesPerSecond: { num: 120, den: 1 }, confirmed: true },
    },
    { kind: 'view', ...of, before: 'face-on', after: 'down-the-line' },
    {
      kind: 'pins',
      swingId,
      before: [],
      after: [
        { id: 'hip-line', aspect: 'change', view: 'face-on', checkpoint: 'top' },
        { id: 'tempo', aspect: 'value', view: 'face-on', checkpoint: 'impact' },
      ],
    },
    { kind: 'page', swingId, before: EMPTY_PAGE, after: samplePage() },
    { kind: 'consent', swingId, before: false, after: true },
    { kind: 'checkpoint', ...of, checkpoint: 'top', before: named(3), after: null },
  ];
}

describe('edits of a lesson', () => {
  test('are taken back one by one to the very beginning, and made again, also after the book was closed', async () => {
    const sample = await bookWithClip();
    const { swingId, lessonId } = sample;
    let { book } = sample;
    const stages = [book.openSwing(swingId)];
    for (const edit of editsOf(sample)) {
      book.makeEdit(edit);
      stages.push(book.openSwing(swingId));
    }
    expect(book.listEdits(lessonId)).toEqual({ done: editsOf(sample).map(sameIds), undone: [] });
    book.close();
    book = reopen(book.folder);
    for (const stage of stages.slice(0, -1).toReversed()) {
      expect(book.undoEdit(lessonId)).not.toBeNull();
      expect(book.openSwing(swingId)).toEqual(stage);
    }
    expect(book.undoEdit(lessonId)).toBeNull();
    book.close();
    book = reopen(book.folder);
    for (const stage of stages.slice(1)) {
      expect(book.redoEdit(lessonId)).not.toBeNull();
      expect(book.openSwing(swingId)).toEqual(stage);
    }
    expect(book.redoEdit(lessonId)).toBeNull();
  });

  test('that were taken back are gone with the next one', async () => {
    const sample = await bookWithClip();
    const { book, lessonId } = sample;
    const [first, second, ...rest] = editsOf(sample);
    if (first === undefined || second === undefined) throw new Error('no edits');
    book.makeEdit(first);
    book.makeEdit(second);
    book.undoEdit(lessonId);
    expect(book.listEdits(lessonId).undone).toHaveLength(1);
    book.makeEdit(rest[2] ?? second);
    expect(book.listEdits(lessonId)).toMatchObject({ done: [{ kind: 'marks' }, { kind: 'capture-rate' }], undone: [] });
    expect(book.redoEdit(lessonId)).toBeNull();
  });

  test('are listed in the order in which they can be taken back and made again', async () => {
    const sample = await bookWithClip();
    const { book, lessonId } = sample;
    for (const edit of editsOf(sample).slice(0, 4)) book.makeEdit(edit);
    const first = book.undoEdit(lessonId);
    const second = book.undoEdit(lessonId);
    expect(book.listEdits(lessonId).undone).toEqual([first, second]);
    expect(book.listEdits(lessonId).undone.at(-1)).toEqual(book.redoEdit(lessonId));
  });

  test('are neither made nor kept when the change is refused', async () => {
    const sample = await bookWithClip();
    const { book, lessonId, swingId, clip } = sample;
    const other = book.addSwing({ lessonId, label: 'Swing 2' });
    const of = { kind: 'marks', clipId: clip.id, before: bare(2), after: ballAt(2, 1) } as const;
    expectThrown(() => book.makeEdit({ ...of, swingId: other.id }), 'bad-request', /another swing/);
    expectThrown(() => book.makeEdit({ ...of, swingId: randomUUID() }), 'no-such-record');
    const ghost = { index: 2, pts: 1 };
    const wrong = { ...of, swingId, before: { ...bare(2), frame: ghost }, after: { ...bare(2), frame: ghost } };
    expectThrown(() => book.makeEdit(wrong), 'bad-request');
    expectThrown(() => book.makeEdit({ ...of, swingId, after: ballAt(3, 1) }), 'bad-request', /one frame/);
    expect(book.listEdits(lessonId)).toEqual({ done: [], undone: [] });
    expect(book.openSwing(swingId).clips[0]?.marks).toEqual([]);
  });

  test('go with their clip, their swing and their lesson', async () => {
    const sample = await bookWithClip();
    const { book, lessonId, swingId, clip } = sample;
    for (const edit of editsOf(sample)) book.makeEdit(edit);
    book.removeClip(clip.id);
    expect(book.listEdits(lessonId).done.map(({ kind }) => kind)).toEqual(['pins', 'page', 'consent']);
    book.removeSwing(swingId);
    expect(book.listEdits(lessonId)).toEqual({ done: [], undone: [] });
    book.removeLesson(lessonId);
    expectThrown(() => book.listEdits(lessonId), 'no-such-record');
  });

  test(`are kept up to ${String(MOST_KEPT_EDITS)}: of more, the oldest go`, async () => {
    const { book, lessonId, swingId, clip } = await bookWithClip();
    for (let turn = 0; turn < MOST_KEPT_EDITS + 3; turn += 1) {
      const [before, after] = [turn, turn + 1].map((each) => (each === 0 ? bare(1) : ballAt(1, each)));
      if (before !== undefined && after !== undefined)
        book.makeEdit({ kind: 'marks', swingId, clipId: clip.id, before, after });
    }
    const { done } = book.listEdits(lessonId);
    expect(done).toHaveLength(MOST_KEPT_EDITS);
    expect(done[0]).toMatchObject({ before: { points: { ball: { x: 3 } } } });
  }, 120_000);
});

/** Ids of shapes are made anew for each call. */
function sameIds(edit: Edit): unknown {
  return JSON.parse(JSON.stringify(edit), (key, value: unknown) =>
    key === 'id' && String(value).length === 36 ? expect.any(String) : value,
  );
}

describe('when the frames of a clip get other numbers', () => {
  test('edits follow their frame by its time stamp and are taken back onto it', async () => {
    const sample = await bookWithClip();
    const { book, lessonId, swingId, clip } = sample;
    for (const edit of editsOf(sample).slice(0, 4)) book.makeEdit(edit);
    // The first frame turns out not to be shown.
    const { frames, ...facts } = sampleIndex();
    book.settleClip(clip.id, { ...facts, frames: frames.slice(1) });
    for (let turn = 0; turn < 4; turn += 1) expect(book.undoEdit(lessonId)).not.toBeNull();
    expect(book.openSwing(swingId).clips[0]).toMatchObject({ marks: [], checkpoints: {} });
    book.redoEdit(lessonId);
    expect(book.openSwing(swingId).clips[0]?.marks[0]?.frame).toEqual({ index: 1, pts: sampleFrame(2).pts });
  });

  test('an edit on a frame that is gone is dropped, with all before it', async () => {
    const { book, lessonId, swingId, clip } = await bookWithClip();
    const of = { kind: 'marks', swingId, clipId: clip.id } as const;
    book.makeEdit({ ...of, before: bare(2), after: ballAt(2, 1) });
    book.makeEdit({ ...of, before: bare(0), after: ballAt(0, 1) });
    book.makeEdit({ ...of, before: ballAt(0, 1), after: bare(0) });
    book.makeEdit({ ...of, before: bare(3), after: ballAt(3, 1) });
    const { frames, ...facts } = sampleIndex();
    book.settleClip(clip.id, { ...facts, frames: frames.slice(1) });
    expect(book.listEdits(lessonId).done).toMatchObject([{ after: { frame: { index: 2, pts: sampleFrame(3).pts } } }]);
    book.undoEdit(lessonId);
    expect(book.undoEdit(lessonId)).toBeNull();
    expect(book.openSwing(swingId).clips[0]?.marks).toMatchObject([{ frame: { index: 1 } }]);
  });
});

describe('a change that goes on with the one before', () => {
  const marks = ({ clip, swingId }: Sample, before: FrameMarks, after: FrameMarks): Edit => ({
    ...{ kind: 'marks', swingId, clipId: clip.id },
    ...{ before, after },
  });

  test('is one step back with it, to the last bit, also after the book was closed', async () => {
    const sample = await bookWithClip();
    const { book, lessonId, swingId } = sample;
    const places = [0.1, 0.1 + 0.2, 7, 1 / 3].map((x) => ballAt(2, x));
    const [first = bare(2), ...later] = places;
    book.makeEdit(marks(sample, bare(2), first));
    for (const [at, place] of later.entries()) book.continueEdit(marks(sample, places[at] ?? bare(2), place));
    const kept = { done: [marks(sample, bare(2), ballAt(2, 1 / 3))], undone: [] };
    expect(book.listEdits(lessonId)).toEqual(kept);
    book.close();
    const again = reopen(book.folder);
    expect(again.listEdits(lessonId)).toEqual(kept);
    again.undoEdit(lessonId);
    expect(again.openSwing(swingId).clips[0]?.marks).toEqual([]);
    again.redoEdit(lessonId);
    expect(again.openSwing(swingId).clips[0]?.marks).toEqual([ballAt(2, 1 / 3)]);
  });

  test('is refused after another frame, another kind, a step back, or nothing, and changes nothing then', async () => {
    const sample = await bookWithClip();
    const { book, lessonId, swingId, clip } = sample;
    const goOn = marks(sample, ballAt(2, 1), ballAt(2, 2));
    const refused = () => {
      const before = book.openSwing(swingId);
      expectThrown(() => book.continueEdit(goOn), 'bad-request');
      expect(book.openSwing(swingId)).toEqual(before);
    };
    refused();
    book.makeEdit(marks(sample, bare(3), ballAt(3, 1)));
    refused();
    book.makeEdit(marks(sample, bare(2), ballAt(2, 1)));
    book.makeEdit({ kind: 'view', swingId, clipId: clip.id, before: 'face-on', after: 'down-the-line' });
    refused();
    book.undoEdit(lessonId);
    refused();
  });
});

describe('a step that names its edit', () => {
  test('is taken where it is the latest, and else refused with nothing changed', async () => {
    const sample = await bookWithClip();
    const { book, lessonId, swingId } = sample;
    const [first, second] = editsOf(sample);
    if (first === undefined || second === undefined) throw new Error('two edits are needed');
    book.makeEdit(first);
    book.makeEdit(second);
    const before = book.openSwing(swingId);
    expectThrown(() => book.undoEdit(lessonId, first), 'bad-request', /In the book the latest change is another one/);
    expectThrown(() => book.redoEdit(lessonId, second), 'bad-request');
    expect(book.openSwing(swingId)).toEqual(before);
    expect(book.undoEdit(lessonId, second)).toEqual(second);
    expectThrown(() => book.redoEdit(lessonId, first), 'bad-request');
    expect(book.redoEdit(lessonId, second)).toEqual(second);
  });

  test('means the edit as it is kept: JSON knows no -0', async () => {
    const sample = await bookWithClip();
    const { book, lessonId, swingId, clip } = sample;
    const edit: Edit = { kind: 'marks', swingId, clipId: clip.id, before: bare(2), after: ballAt(2, -0) };
    book.makeEdit(edit);
    expect(() => book.undoEdit(lessonId, edit)).not.toThrow();
    expect(book.openSwing(swingId).clips[0]?.marks).toEqual([]);
  });
});

test('several writes are all made or, where one cannot be written, none; refused ones are named', async () => {
  const sample = await bookWithClip();
  const { book, lessonId } = sample;
  const [first, second] = editsOf(sample);
  if (first === undefined || second === undefined) throw new Error('two edits are needed');
  const writes = [
    { does: 'make', edit: first },
    { does: 'undo', lessonId, edit: second },
    { does: 'make', edit: second },
  ] as const;
  book.database.run(`CREATE TRIGGER full BEFORE INSERT ON checkpoint BEGIN SELECT RAISE(ABORT, 'no room'); END`);
  expect(() => book.writeEdits(writes)).toThrow();
  expect(book.listEdits(lessonId).done).toEqual([]);
  book.database.run('DROP TRIGGER full');
  expect(book.writeEdits(writes)).toEqual([writes[1]]);
  expect(book.listEdits(lessonId).done).toEqual([first, second]);
});
