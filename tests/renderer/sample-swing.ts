import type { BookSwing } from '../../core/model/book.ts';
import { EMPTY_PAGE } from '../../core/model/lesson-page.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { clipIndexOf } from '../support/clip-index.ts';

/** A swing of an invented student, as the window has it. */

export function swingOf(name: string, clips: BookSwing['clips'] = []): BookSwing {
  return {
    student: { id: 'student', firstName: 'Ada', lastName: '', handedness: 'left' },
    lesson: {
      id: `lesson of ${name}`,
      studentId: 'student',
      date: '2026-05-12',
      club: '',
      handedness: 'left',
      note: '',
    },
    swing: { id: name, lessonId: `lesson of ${name}`, label: name },
    clips,
    pins: [],
    page: EMPTY_PAGE,
  };
}

export function clipOf(id: string, frameCount = 4): BookSwing['clips'][number] {
  return {
    ...{ id, swingId: 'a', view: 'face-on', originalName: 'a.mp4', kept: null, sha256: '0'.repeat(64), bytes: 1 },
    ...{ stored: 'copied', frameCount, width: 100, height: 50, timebase: { num: 1, den: 120 }, nominalRate: null },
    ...{ captureRate: null, checkpoints: {}, marks: [] },
  };
}

export const indexOf = (frames: number): ClipIndex => clipIndexOf([...Array(frames).keys()], 120);
