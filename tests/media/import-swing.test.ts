import { copyFileSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Book } from '../../core/book/book.ts';
import { openBook } from '../../core/book/open-book.ts';
import { importClip } from '../../core/jobs/import-clip.ts';
import { importSwing } from '../../core/jobs/import-swing.ts';
import type { SwingOrder } from '../../core/jobs/import-swing.ts';
import { UNWATCHED } from '../../core/jobs/job-context.ts';
import type { BookSwing } from '../../core/model/book.ts';
import type { FrameMarks } from '../../core/model/mark.ts';
import type { SwingFile } from '../../core/model/swing-file.ts';
import { readSwingFile } from '../../core/swing-file/read-swing-file.ts';
import { swingFileOf } from '../../core/swing-file/swing-file-of.ts';
import { writeSwingFile } from '../../core/swing-file/write-swing-file.ts';
import { findFfmpeg, type Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { addSample } from '../core/book/sample.ts';
import { newBook } from '../core/book/with-book.ts';
import { makeGreyClip } from '../support/grey-clip.ts';
import { expectRefused } from '../support/trouble.ts';

let ffmpeg: Ffmpeg;
let folder: string;
/** As exported from another book, with its two clips beside it. */
let file: SwingFile;
let clips: Record<'face-on' | 'down-the-line', string>;
let truth: BookSwing;

beforeAll(async () => {
  ffmpeg = await findFfmpeg();
  const from = mkdtempSync(join(tmpdir(), 'baybook-swing-file-'));
  folder = from;
  clips = { 'face-on': join(from, 'face.mp4'), 'down-the-line': join(from, 'line.mp4') };
  await makeGreyClip({ ffmpeg, out: clips['face-on'], frames: 12 });
  await makeGreyClip({ ffmpeg, out: clips['down-the-line'], frames: 9, width: 352 });
  const book = openBook(join(from, 'book'));
  const { swing } = addSample(book);
  for (const [view, path] of Object.entries(clips) as ['face-on' | 'down-the-line', string][]) {
    const clip = await importClip(book, { swingId: swing.id, view, path, stored: 'copied' }, ffmpeg, UNWATCHED);
    const frames = book.clipIndex(clip.id).frames;
    const frame = (index: number) => ({ index, pts: frames[index]?.pts ?? -1 });
    book.setCheckpoint(clip.id, 'address', frame(1));
    book.setCheckpoint(clip.id, 'top', frame(5));
    book.setCaptureRate(clip.id, { framesPerSecond: { num: 240, den: 1 }, confirmed: true });
    const places = [4, 5, 6].map((index) => ({ x: 10.25 * index, y: 7, pts: frame(index).pts }));
    const marks: FrameMarks = {
      frame: frame(5),
      points: {
        ball: { x: 1 / 3, y: 20, hidden: true },
        'neck-base': { x: 100.125, y: 50, hidden: false },
        'lead-hip': { x: 30, y: 41.5, hidden: false, proposed: PROPOSED },
        'trail-hip': { x: PROPOSED.x, y: PROPOSED.y, hidden: false, guess: 12, proposed: PROPOSED },
      },
      shapes: [
        { kind: 'path', id: crypto.randomUUID(), subject: 'clubhead', places },
        { kind: 'line', id: crypto.randomUUID(), a: { x: 1, y: 2 }, b: { x: 3, y: 90 }, role: 'plumb', lengthMm: null },
      ],
    };
    book.saveMarks(clip.id, marks);
  }
  book.setPins(swing.id, [
    { id: 'tempo', aspect: 'value', view: 'face-on', checkpoint: 'impact' },
    { id: 'back-incline', aspect: 'value', view: 'down-the-line', checkpoint: 'top' },
  ]);
  truth = book.openSwing(swing.id);
  book.close();
  const path = join(from, 'swing.json');
  await writeSwingFile(
    path,
    swingFileOf(truth, ({ view }) => clips[view], from),
  );
  file = (await readSwingFile(path)).swing;
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const order = (changes: Partial<SwingOrder> = {}): SwingOrder => ({
  swing: file,
  studentId: null,
  files: clips,
  ...changes,
});

/** Proposed by a computer whose clock is ahead of all others. */
const PROPOSED = {
  ...{ x: 28, y: 40.25, model: { x: 27, y: 40 }, assumed: 12, size: 300 },
  at: '2199-12-31T23:59:59.999Z',
};

/** What a swing says, without the ids, times and names that belong to its book. */
function said({ lesson, clips, pins }: BookSwing) {
  return {
    lesson: { date: lesson.date, club: lesson.club, handedness: lesson.handedness },
    clips: clips.map(({ view, sha256, captureRate, checkpoints, marks }) => ({
      ...{ view, sha256, captureRate, checkpoints },
      marks: marks.map((each) => ({ ...each, shapes: each.shapes.map((shape) => ({ ...shape, id: '' })) })),
    })),
    pins,
  };
}

function expectNothing(book: Book): void {
  expect(book.listStudents()).toEqual([]);
  expect(readdirSync(join(book.folder, 'media'))).toEqual([]);
}

describe('a swing file that is brought in', () => {
  it('says in another book what it said in its own, to the last digit', async () => {
    const book = newBook();
    const { id } = await importSwing(book, order(), ffmpeg, UNWATCHED);
    const swing = book.openSwing(id);
    expect(said(swing)).toEqual(said(truth));
    expect(swing.student).toMatchObject({ firstName: 'Robin', lastName: '', handedness: 'right' });
    expect(swing.clips.map(({ originalName }) => originalName).toSorted()).toEqual(['face.mp4', 'line.mp4']);
    expect(swing.student).not.toHaveProperty('child');
  });

  it('teaches nothing of where proposed points lie, also where it came from, and nothing of it is lost', async () => {
    const own = openBook(join(folder, 'book'));
    expect(own.listCorrections()).toMatchObject({ corrections: [{ point: 'lead-hip' }, {}], brought: 0 });
    await importSwing(own, order({ studentId: own.listStudents()[0]?.student.id ?? '' }), ffmpeg, UNWATCHED);
    expect(own.listCorrections()).toMatchObject({ corrections: [{ point: 'lead-hip' }, {}], brought: 2 });
    own.close();
    const book = newBook();
    const { id } = await importSwing(book, order(), ffmpeg, UNWATCHED);
    expect(book.listCorrections()).toEqual({ corrections: [], leftOut: 0, brought: 2 });
    // As it goes out again, nobody can tell that it came in.
    const again = swingFileOf(book.openSwing(id), ({ view }) => clips[view], folder);
    expect(again.clips.map(({ marks }) => marks.map(({ points }) => points))).toEqual(
      file.clips.map(({ marks }) => marks.map(({ points }) => points)),
    );
  });

  it('of a child makes a new student who is a child, and confirms nothing', async () => {
    const book = newBook();
    const childs = order({ swing: { ...file, student: { firstName: 'Robin', child: true } } });
    const { student, lesson } = book.openSwing((await importSwing(book, childs, ffmpeg, UNWATCHED)).id);
    expect([student.child, lesson.consent]).toEqual([true, undefined]);
  });

  it('twice, or into the lesson it is from, is one more swing of that lesson; the others stay as they were', async () => {
    const book = newBook();
    const first = await importSwing(book, order(), ffmpeg, UNWATCHED);
    const before = book.openSwing(first.id);
    const studentId = before.student.id;
    const second = await importSwing(book, order({ studentId }), ffmpeg, UNWATCHED);
    expect([second.lessonId, second.label]).toEqual([first.lessonId, 'Swing 2']);
    book.removeSwing(first.id);
    const third = await importSwing(book, order({ studentId }), ffmpeg, UNWATCHED);
    expect([third.lessonId, third.label]).not.toEqual([second.lessonId, second.label]);
    expect(said(book.openSwing(second.id))).toEqual(said(before));
    const other = { ...file, lesson: { ...file.lesson, club: 'Driver' } };
    const fourth = await importSwing(book, order({ swing: other, studentId }), ffmpeg, UNWATCHED);
    expect(fourth.lessonId).not.toBe(first.lessonId);
    expect(book.listStudents()).toHaveLength(1);
  });

  it('leaves out the view whose clip is not there, with what is pinned of it', async () => {
    const book = newBook();
    const files = { 'face-on': clips['face-on'] };
    const { id } = await importSwing(book, order({ files }), ffmpeg, UNWATCHED);
    const { clips: kept, pins } = book.openSwing(id);
    expect([kept.map(({ view }) => view), pins.map(({ view }) => view)]).toEqual([['face-on'], ['face-on']]);
  });

  it('finds its frames by their time stamps, whatever their numbers were', async () => {
    const shifted: SwingFile = {
      ...file,
      clips: file.clips.map((clip) => ({
        ...clip,
        marks: clip.marks.map((each) => ({ ...each, frame: { ...each.frame, index: each.frame.index + 2 } })),
      })),
    };
    const book = newBook();
    const { id } = await importSwing(book, order({ swing: shifted }), ffmpeg, UNWATCHED);
    expect(said(book.openSwing(id))).toEqual(said(truth));
  });
});

describe('of one that cannot be brought in nothing stays', () => {
  it.each(['another clip', 'no clip', 'none chosen'])('%s', async (what) => {
    const book = newBook();
    const other = join(folder, 'other.mp4');
    copyFileSync(clips['face-on'], other);
    const work = (files: SwingOrder['files']) => importSwing(book, order({ files }), ffmpeg, UNWATCHED);
    if (what === 'another clip')
      await expectRefused(work({ ...clips, 'down-the-line': other }), 'clip-changed', /other\.mp4 is not the clip/);
    else if (what === 'no clip')
      await expectRefused(work({ ...clips, 'face-on': join(folder, 'gone.mp4') }), 'clip-moved', /gone\.mp4/);
    else await expectRefused(work({}), 'bad-request', /^Choose at least one of the clips/);
    expectNothing(book);
  });

  it('a frame that is not in its clip', async () => {
    const [first] = file.clips;
    const marks = first?.marks.map((each) => ({ ...each, frame: { index: 5, pts: 7 } })) ?? [];
    const wrong = { ...file, clips: file.clips.map((clip) => (clip === first ? { ...clip, marks } : clip)) };
    const book = newBook();
    await expectRefused(
      importSwing(book, order({ swing: wrong }), ffmpeg, UNWATCHED),
      'swing-file-invalid',
      /which that clip does not have\. Have the swing exported anew\.$/,
    );
    expectNothing(book);
  });

  it('a cancel while its second clip is copied; a lesson that was there keeps what it had', async () => {
    const book = newBook();
    const first = await importSwing(book, order(), ffmpeg, UNWATCHED);
    const before = book.listStudents();
    const control = new AbortController();
    let tables = 0;
    const report = (label: string) => {
      if (label === 'Reading the table of frames' && (tables += 1) === 2) control.abort();
    };
    const studentId = book.openSwing(first.id).student.id;
    await expectRefused(
      importSwing(book, order({ studentId }), ffmpeg, { signal: control.signal, report }),
      'cancelled',
    );
    expect(book.listStudents()).toEqual(before);
    expect(said(book.openSwing(first.id))).toEqual(said(truth));
  });
});
