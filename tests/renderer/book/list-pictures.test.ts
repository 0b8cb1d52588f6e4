import { expect, test } from 'vitest';
import type { OverviewClip, StudentOverview } from '../../../core/model/book.ts';
import type { View } from '../../../core/model/words.ts';
import { pictureOf, picturesOf } from '../../../renderer/book/state/list-pictures.ts';

const clip = (id: string, view: View, named: OverviewClip['named']): OverviewClip => ({ id, view, named });

function lesson(date: string, ...swings: readonly (readonly OverviewClip[])[]): StudentOverview['lessons'][number] {
  return {
    lesson: { id: date, studentId: 'a', date, club: '', handedness: 'right', note: '' },
    swings: swings.map((clips, place) => ({
      swing: { id: `${date} ${String(place)}`, lessonId: date, label: String(place) },
      clips,
    })),
  };
}

const OLD = lesson('2026-04-14', [clip('old', 'face-on', { top: 7 })]);
const NEW = lesson(
  '2026-05-12',
  [clip('first', 'down-the-line', { address: 1 })],
  [clip('beside', 'face-on', { top: 4 }), clip('line', 'down-the-line', { address: 2, impact: 9 })],
);
const BARE = lesson('2026-06-01', [clip('bare', 'face-on', {})], []);

test('a student is shown by the last swing of the last lesson that has a named frame, down the line first, top first', () => {
  expect(pictureOf({ lessons: [OLD, NEW, BARE] })).toEqual({ clip: 'line', frame: 9 });
  expect(pictureOf({ lessons: [OLD, BARE] })).toEqual({ clip: 'old', frame: 7 });
  expect(pictureOf({ lessons: [BARE] })).toBeNull();
  expect(pictureOf({ lessons: [] })).toBeNull();
});

test('a lesson is shown by address, top and impact of its first swing that has one named, a view after the other', () => {
  expect(picturesOf(NEW)).toEqual([
    { swing: '2026-05-12 0', clip: 'first', view: 'down-the-line', frame: 1, checkpoint: 'address' },
  ]);
  const whole = lesson('2026-06-02', [
    clip('b', 'face-on', { finish: 9, impact: 5 }),
    clip('a', 'down-the-line', { top: 4, address: 2 }),
  ]);
  expect(picturesOf(whole)).toMatchObject([
    { clip: 'a', frame: 2, checkpoint: 'address' },
    { clip: 'a', frame: 4, checkpoint: 'top' },
    { clip: 'b', frame: 5, checkpoint: 'impact' },
  ]);
});

test('a lesson in which nothing is named yet is shown by the first frame of each clip; one without a clip by none', () => {
  const bare = { swing: '2026-06-01 0', clip: 'bare', view: 'face-on', frame: 0, checkpoint: null };
  expect(picturesOf(BARE)).toEqual([bare]);
  expect(picturesOf(lesson('2026-06-03', []))).toEqual([]);
});
