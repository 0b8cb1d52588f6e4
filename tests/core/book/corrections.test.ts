import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Book } from '../../../core/book/book.ts';
import type { FrameMarks, PlacedPoint } from '../../../core/model/mark.ts';
import { expectThrown } from '../../support/trouble.ts';
import { addSample, addSampleClip, sampleFrame } from './sample.ts';
import { newBook, reopen } from './with-book.ts';

const AT = '2026-11-30T12:00:00.000Z';
const PROPOSED = { x: 100.125, y: 50, model: { x: 98, y: 51 }, assumed: 12, size: 700, at: AT };
const RIGHT: PlacedPoint = { x: 104, y: 47, hidden: false, proposed: PROPOSED };
const ACCEPTED: PlacedPoint = { x: PROPOSED.x, y: PROPOSED.y, hidden: false, guess: 12, proposed: PROPOSED };

const marks = (points: FrameMarks['points'], index = 2): FrameMarks => ({
  frame: sampleFrame(index),
  points,
  shapes: [],
});

async function bookWithClip() {
  const book = newBook();
  const { student, lesson, swing } = addSample(book);
  return { book, student, lesson, swing, clip: await addSampleClip(book, swing.id) };
}

const corrected = (book: Book) => book.listCorrections().corrections.map(({ point }) => point);

describe('corrections of proposed points', () => {
  test('are what a hand put elsewhere in sight, with view, hand and lesson; nothing that was accepted or never proposed', async () => {
    const { book, clip, lesson } = await bookWithClip();
    const all = {
      ...{ 'lead-hip': RIGHT, 'trail-hip': ACCEPTED, 'lead-knee': { ...RIGHT, hidden: true } },
      ...{ ball: { x: 1, y: 2, hidden: false } },
    };
    book.saveMarks(clip.id, marks(all));
    const expected = {
      corrections: [
        {
          ...{ point: 'lead-hip', view: 'face-on', handedness: 'right', lessonId: lesson.id, checkpoint: null },
          ...{ placed: { x: 104, y: 47 }, proposed: PROPOSED },
        },
      ],
      ...{ leftOut: 0, brought: 0 },
    };
    expect(book.listCorrections()).toEqual(expected);
    book.close();
    const again = reopen(book.folder);
    expect(again.listCorrections()).toEqual(expected);
    expect(again.readMarks(clip.id)).toEqual([marks(all)]);
  });

  test('tell what their frame is named now, the first name in the order of a swing', async () => {
    const { book, clip } = await bookWithClip();
    book.saveMarks(clip.id, marks({ 'lead-hip': RIGHT }));
    book.saveMarks(clip.id, marks({ 'lead-hip': RIGHT }, 3));
    const named = () => book.listCorrections().corrections.map(({ checkpoint }) => checkpoint);
    book.setCheckpoint(clip.id, 'top', sampleFrame(3));
    expect(named()).toEqual([null, 'top']);
    book.setCheckpoint(clip.id, 'takeaway', sampleFrame(2));
    book.setCheckpoint(clip.id, 'address', sampleFrame(2));
    expect(named()).toEqual(['address', 'top']);
    book.setCheckpoint(clip.id, 'top', sampleFrame(4));
    book.setCheckpoint(clip.id, 'address', null);
    expect(named()).toEqual(['takeaway', null]);
  });

  test('go with an undone edit as one, and come again with it', async () => {
    const { book, clip, swing, lesson } = await bookWithClip();
    const of = { kind: 'marks', swingId: swing.id, clipId: clip.id } as const;
    book.makeEdit({ ...of, before: marks({}), after: marks({ 'lead-hip': ACCEPTED }) });
    book.makeEdit({ ...of, before: marks({ 'lead-hip': ACCEPTED }), after: marks({ 'lead-hip': RIGHT }) });
    expect(corrected(book)).toEqual(['lead-hip']);
    book.undoEdit(lesson.id);
    expect(corrected(book)).toEqual([]);
    expect(book.readMarks(clip.id)).toEqual([marks({ 'lead-hip': ACCEPTED })]);
    book.redoEdit(lesson.id);
    expect(corrected(book)).toEqual(['lead-hip']);
    book.undoEdit(lesson.id);
    book.undoEdit(lesson.id);
    expect(book.readMarks(clip.id)).toEqual([]);
  });

  test('are not there while their student is in the bin, come back with it, and leave no byte when it is removed', async () => {
    const { book, clip, student } = await bookWithClip();
    book.saveMarks(clip.id, marks({ 'lead-hip': RIGHT }));
    const entry = book.moveToBin('student', student.id, AT);
    expect(corrected(book)).toEqual([]);
    book.putBack(entry.id);
    expect(corrected(book)).toEqual(['lead-hip']);
    book.removeStudent(student.id);
    expect(book.listCorrections()).toEqual({ corrections: [], leftOut: 0, brought: 0 });
    book.close();
    expect(readFileSync(join(book.folder, 'book.sqlite')).includes('100.125')).toBe(false);
  });

  test('from before the coach began anew do not count, and the marks stay', async () => {
    const { book, clip } = await bookWithClip();
    book.saveMarks(clip.id, marks({ 'lead-hip': RIGHT }));
    expectThrown(() => book.forgetCorrections('yesterday'), 'bad-request');
    book.forgetCorrections('2026-11-30T12:00:00.001Z');
    expect(book.listCorrections()).toEqual({ corrections: [], leftOut: 1, brought: 0 });
    expect(book.readMarks(clip.id)).toEqual([marks({ 'lead-hip': RIGHT })]);
    const later = { ...RIGHT, proposed: { ...PROPOSED, at: '2026-11-30T12:00:00.002Z' } };
    book.saveMarks(clip.id, marks({ 'lead-knee': later }, 3));
    expect(corrected(book)).toEqual(['lead-knee']);
    book.forgetCorrections('2026-12-01T00:00:00.000Z');
    expect(book.listCorrections()).toEqual({ corrections: [], leftOut: 2, brought: 0 });
  });

  test.each(['clip', 'swing', 'lesson', 'student'] as const)(
    'go with their %s, and come back with it',
    async (kind) => {
      const { book, ...of } = await bookWithClip();
      book.saveMarks(of.clip.id, marks({ 'lead-hip': RIGHT }));
      const other = addSample(book, 'Kim');
      const own = await addSampleClip(book, other.swing.id);
      book.saveMarks(own.id, marks({ 'trail-hip': RIGHT }));
      expect(corrected(book)).toEqual(['lead-hip', 'trail-hip']);
      const entry = book.moveToBin(kind, of[kind].id, AT);
      expect(corrected(book)).toEqual(['trail-hip']);
      book.putBack(entry.id);
      expect(corrected(book).toSorted()).toEqual(['lead-hip', 'trail-hip']);
      book.removeFromBin(book.moveToBin(kind, of[kind].id, AT).id);
      expect(corrected(book)).toEqual(['trail-hip']);
      const left = book.listCorrections();
      book.close();
      expect(reopen(book.folder).listCorrections()).toEqual(left);
    },
  );

  test('that came with a swing file do not count, undone, removed and put back or not; what is proposed there later does', async () => {
    const { book, clip, swing, lesson, student } = await bookWithClip();
    book.leaveOutOfLearning(clip.id, AT);
    book.saveMarks(clip.id, marks({ 'lead-hip': RIGHT, 'trail-hip': ACCEPTED }));
    const brought = { corrections: [], leftOut: 0, brought: 1 };
    expect(book.listCorrections()).toEqual(brought);
    // A point that another coach accepted, and this one moves: it is not known whose eye the place before is from.
    const of = { kind: 'marks', swingId: swing.id, clipId: clip.id } as const;
    const before = marks({ 'lead-hip': RIGHT, 'trail-hip': ACCEPTED });
    book.makeEdit({ ...of, before, after: marks({ 'lead-hip': RIGHT, 'trail-hip': RIGHT }) });
    expect(book.listCorrections()).toEqual({ ...brought, brought: 2 });
    book.undoEdit(lesson.id);
    expect(book.listCorrections()).toEqual(brought);
    book.putBack(book.moveToBin('student', student.id, AT).id);
    expect(book.listCorrections()).toEqual(brought);
    expect(book.readMarks(clip.id)).toEqual([before]);
    const later = { ...RIGHT, proposed: { ...PROPOSED, at: '2026-11-30T12:00:00.001Z' } };
    book.saveMarks(clip.id, marks({ 'lead-knee': later }, 3));
    expect(corrected(book)).toEqual(['lead-knee']);
    book.forgetCorrections('2026-12-01T00:00:00.000Z');
    expect(book.listCorrections()).toEqual({ corrections: [], leftOut: 1, brought: 1 });
    expectThrown(() => book.leaveOutOfLearning(clip.id, 'today'), 'bad-request');
    expectThrown(() => book.leaveOutOfLearning(lesson.id, AT), 'no-such-record');
  });
});
