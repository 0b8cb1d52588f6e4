import { randomUUID } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import type { Book } from '../../../core/book/book.ts';
import { placingOfBook } from '../../../core/jobs/placing-of-book.ts';
import { ASSUMED_PLACING } from '../../../core/measure/uncertainty/placing.ts';
import { placingErrorsOfChecks } from '../../../core/measure/repeat/day-spread.ts';
import { placingErrorsOf } from '../../../core/measure/repeat/placing-spread.ts';
import type { Clip } from '../../../core/model/book.ts';
import type { NewRepeatCheck } from '../../../core/model/repeat-check.ts';
import { expectThrown } from '../../support/trouble.ts';
import { addSample, addSampleClip, sampleFrame } from './sample.ts';
import type { Sample } from './sample.ts';
import { newBook, reopen } from './with-book.ts';

const AT = '2026-05-12T09:30:00.000Z';
const PLUMB = {
  id: randomUUID(),
  kind: 'line',
  a: { x: 1, y: 2 },
  b: { x: 1, y: 900 },
  role: 'plumb',
  lengthMm: null,
} as const;
const BOX = { id: randomUUID(), kind: 'box', x: 1, y: 2, width: 30, height: 40, role: 'head-box' } as const;
const PLAIN = { id: randomUUID(), kind: 'circle', centre: { x: 1, y: 2 }, radius: 3 } as const;

async function bookWithClip(): Promise<Sample & { readonly book: Book; readonly clip: Clip }> {
  const book = newBook();
  const sample = addSample(book);
  const clip = await addSampleClip(book, sample.swing.id);
  book.setCheckpoint(clip.id, 'top', sampleFrame(2));
  book.setCheckpoint(clip.id, 'takeaway', sampleFrame(2));
  book.saveMarks(clip.id, { frame: sampleFrame(1), points: {}, shapes: [BOX, PLUMB] });
  book.saveMarks(clip.id, { frame: sampleFrame(2), points: {}, shapes: [PLAIN] });
  return { ...sample, book, clip };
}

const checkOf = (clipId: string): NewRepeatCheck => ({
  at: AT,
  namings: [{ clipId, checkpoint: 'top', frameSeconds: 1 / 120, after: [0, 1 / 3, -0.1] }],
  frames: [
    {
      clipId,
      frame: sampleFrame(2),
      placings: {
        ball: [
          { x: 0.1 + 0.2, y: 1 / 3 },
          { x: 5, y: 6 },
          { x: -7, y: 1e-9 },
        ],
        tailbone: [
          { x: 1, y: 1 },
          { x: 2, y: 2 },
          { x: 3, y: 3 },
        ],
      },
    },
    {
      clipId,
      frame: sampleFrame(1),
      placings: {
        ball: [
          { x: 1, y: 2 },
          { x: 3, y: 4 },
          { x: 5, y: 6 },
        ],
      },
    },
  ],
});

describe('a repeat check', () => {
  test('is kept to the last bit, with what the book knows of its frames, also by a book that is opened again', async () => {
    const { book, clip, lesson } = await bookWithClip();
    const kept = book.addRepeatCheck(checkOf(clip.id));
    const of = {
      clipId: clip.id,
      view: clip.view,
      handedness: lesson.handedness,
      width: clip.width,
      height: clip.height,
    };
    const [first, second] = checkOf(clip.id).frames;
    expect(kept).toEqual({
      id: kept.id,
      at: AT,
      frames: [
        { ...of, ...first, checkpoints: ['takeaway', 'top'], shapes: [PLUMB] },
        { ...of, ...second, checkpoints: [], shapes: [BOX, PLUMB] },
      ],
      namings: checkOf(clip.id).namings,
    });
    expect(book.listRepeatChecks()).toEqual([kept]);
    book.close();
    expect(reopen(book.folder).listRepeatChecks()).toEqual([kept]);
  });

  test('outlives its clip and its student', async () => {
    const { book, clip, student } = await bookWithClip();
    const kept = book.addRepeatCheck(checkOf(clip.id));
    const errors = placingOfBook(book);
    book.removeClip(clip.id);
    book.removeStudent(student.id);
    expect(book.listRepeatChecks()).toEqual([kept]);
    expect(placingOfBook(book)).toEqual(errors);
  });

  test('holds no name of anybody', async () => {
    const { book, clip } = await bookWithClip();
    book.addRepeatCheck(checkOf(clip.id));
    const text = JSON.stringify(book.listRepeatChecks());
    for (const name of ['Robin', 'Example', 'Swing 1', '7 iron', 'swing.mp4']) expect(text).not.toContain(name);
  });

  test('stands before those that are older, and goes when it is removed', async () => {
    const { book, clip } = await bookWithClip();
    const older = book.addRepeatCheck({ ...checkOf(clip.id), at: '2025-01-01T00:00:00.000Z' });
    const newer = book.addRepeatCheck(checkOf(clip.id));
    expect(book.listRepeatChecks().map(({ id }) => id)).toEqual([newer.id, older.id]);
    book.removeRepeatCheck(newer.id);
    expect(book.listRepeatChecks()).toEqual([older]);
    expectThrown(() => {
      book.removeRepeatCheck(newer.id);
    }, 'no-such-record');
  });

  test('gives the placing errors of all that are kept; without one they are assumed', async () => {
    const { book, clip } = await bookWithClip();
    expect(placingOfBook(book)).toEqual({ ...ASSUMED_PLACING, freedom: {} });
    const onlyNamed = book.addRepeatCheck({ ...checkOf(clip.id), frames: [] });
    expect(placingOfBook(book).naming?.freedom).toEqual({ top: 6 });
    book.removeRepeatCheck(onlyNamed.id);
    const one = book.addRepeatCheck(checkOf(clip.id));
    const other = book.addRepeatCheck({ ...checkOf(clip.id), at: '2026-06-01T00:00:00.000Z' });
    expect(placingOfBook(book)).toEqual(placingErrorsOfChecks([other, one]));
    expect(placingOfBook(book).known).toEqual(placingErrorsOf([...other.frames, ...one.frames]).known);
    // 2 coordinates x 2 frames x (3 - 1), twice.
    expect(placingOfBook(book).freedom?.ball).toBe(16);
    book.removeRepeatCheck(one.id);
    book.removeRepeatCheck(other.id);
    expect(placingOfBook(book).known).toEqual({});
  });

  test('that is not right is refused whole', async () => {
    const { book, clip } = await bookWithClip();
    const good = checkOf(clip.id);
    const [first, second] = good.frames;
    const [naming] = good.namings;
    if (first === undefined || second === undefined) throw new Error('two frames');
    const withBall = (ball: unknown) => ({ ...good, frames: [{ ...first, placings: { ball } }] });
    const wrong: readonly (readonly [unknown, RegExp])[] = [
      [{ ...good, frames: [], namings: [] }, /must have a frame or a naming/],
      [{ ...good, namings: [naming, naming] }, /each checkpoint of a clip once/],
      [{ ...good, namings: [{ ...naming, checkpoint: 'address' }] }, /instant is read/],
      [{ ...good, namings: [{ ...naming, after: [0] }] }, /two instants/],
      [{ ...good, namings: [{ ...naming, after: [0, Infinity] }] }, /number/],
      [{ ...good, namings: [{ ...naming, frameSeconds: 0 }] }, /more than 0/],
      [{ ...good, at: '2026-05-12' }, /must be an instant/],
      [{ ...good, at: '2026-02-30T09:30:00.000Z' }, /instant that there is/],
      [{ ...good, frames: [first, first] }, /each frame of a clip once/],
      [{ ...good, frames: [{ ...first, placings: {} }] }, /must have a body point/],
      [{ ...good, frames: [{ ...first, placings: { hat: [{ x: 1, y: 1 }] } }] }, /hat/],
      [withBall([{ x: 1, y: 1 }]), /two places or more/],
      [
        withBall([
          { x: 1, y: 1 },
          { x: Number.NaN, y: 1 },
        ]),
        /number/,
      ],
      [withBall([{ x: 1, y: 1 }, { x: 1 }]), /y/],
      [
        {
          ...good,
          frames: [
            first,
            {
              ...second,
              placings: {
                ball: [
                  { x: 1, y: 1 },
                  { x: 1, y: 1 },
                ],
              },
            },
          ],
        },
        /as many places/,
      ],
      [{ ...good, frames: [{ ...first, frame: { index: 99, pts: 0 } }] }, /no frame 99/],
      [{ ...good, frames: [{ ...first, frame: { index: 2, pts: 1 } }] }, /time stamp/],
      [{ ...good, shown: true }, /shown/],
    ];
    for (const [check, words] of wrong)
      expectThrown(() => book.addRepeatCheck(check as NewRepeatCheck), 'bad-request', words);
    const gone = { ...good, frames: [first, { ...second, clipId: randomUUID() }] };
    expectThrown(() => book.addRepeatCheck(gone), 'no-such-record');
    const elsewhere = { ...good, namings: [{ ...naming, clipId: randomUUID() }] };
    expectThrown(() => book.addRepeatCheck(elsewhere as NewRepeatCheck), 'no-such-record');
    expect(book.listRepeatChecks()).toEqual([]);
  });

  test('that was damaged in the file is said, never read as something else', async () => {
    const { book, clip } = await bookWithClip();
    book.addRepeatCheck(checkOf(clip.id));
    book.database.run("UPDATE repeat_frame SET shapes = '[{}]' WHERE position = 1");
    expectThrown(() => book.listRepeatChecks(), 'book-damaged');
  });
});
