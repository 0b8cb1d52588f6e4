import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Book } from '../../../core/book/book.ts';
import { storeClipFile } from '../../../core/book/media.ts';
import type { Clip, Lesson, Student, Swing } from '../../../core/model/book.ts';
import type { View } from '../../../core/model/words.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';

/** A clip index with uneven gaps and a first time stamp below zero, as an edit list leaves it. */
export function sampleIndex(frameCount = 5): ClipIndex {
  return {
    width: 1080,
    height: 1920,
    turn: 90,
    mirrored: false,
    pixelAspect: { num: 1, den: 1 },
    timebase: { num: 1, den: 90000 },
    variable: true,
    nominalRate: { num: 30000, den: 1001 },
    captureRate: { framesPerSecond: { num: 240, den: 1 }, confirmed: false },
    sound: true,
    dynamicRange: 'sdr',
    damage: [],
    leftOut: { doubled: 0, hidden: 3, timeless: 0 },
    frames: Array.from({ length: frameCount }, (_, index) => ({
      pts: index * 3003 + (index % 2) - 1500,
      ticks: 3003 + (index % 2 === 0 ? 1 : -1),
      key: index % 3 === 0,
    })),
  };
}

/** The frame of `sampleIndex` at that place. */
export const sampleFrame = (index: number): { index: number; pts: number } => ({
  index,
  pts: index * 3003 + (index % 2) - 1500,
});

export interface Sample {
  readonly student: Student;
  readonly lesson: Lesson;
  readonly swing: Swing;
}

/** An invented student with one lesson and one swing. */
export function addSample(book: Book, firstName = 'Robin'): Sample {
  const student = book.addStudent({ firstName, lastName: 'Example', handedness: 'right' });
  const lesson = book.addLesson({
    studentId: student.id,
    date: '2026-05-12',
    club: '7 iron',
    handedness: 'right',
    note: '',
  });
  return { student, lesson, swing: book.addSwing({ lessonId: lesson.id, label: 'Swing 1' }) };
}

/** Adds a clip whose bytes are `content` (no real video: the book does not look inside). */
export async function addSampleClip(
  book: Book,
  swingId: string,
  options: { content?: string; view?: View; how?: 'copied' | 'linked'; name?: string; index?: ClipIndex } = {},
): Promise<Clip> {
  const originalName = options.name ?? 'swing.mp4';
  const path = join(book.folder, '..', originalName);
  writeFileSync(path, options.content ?? 'bytes of a clip');
  const file = await storeClipFile(book, path, { how: options.how ?? 'copied' });
  const index = options.index ?? sampleIndex();
  return book.addClip({ swingId, view: options.view ?? 'face-on', originalName, file, index });
}
