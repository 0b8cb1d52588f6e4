import { expect, test } from 'vitest';
import { questionsOf } from '../../../../core/measure/doubts/questions.ts';
import { questionsAbout } from '../../../../core/measure/words/question-words.ts';
import type { MarkedSwing } from '../../../../core/model/swing.ts';
import { ALL_SHAPES, inventedSwing, line, movedSwing } from '../invented-swing.ts';

/** All marks mirrored, as a left-hander's picture is. */
const mirrored = (swing: MarkedSwing) => movedSwing(swing, ({ x, y }) => ({ x: 1920 - x, y }));

test('a club that was left where it lay at address says nothing of the hand', () => {
  // Only impact has the clubhead elsewhere, by less than a way that a swing makes.
  const swing = inventedSwing(ALL_SHAPES);
  expect(questionsAbout(swing)).toEqual([]);
  expect(questionsAbout({ ...mirrored(swing), handedness: 'left' })).toEqual([]);
  expect(questionsAbout({ ...swing, handedness: 'left' })).toHaveLength(2);
  expect(questionsAbout(mirrored(swing))).toHaveLength(2);
});

test('a hidden point needs to lie farther off before it votes', () => {
  const [, clip] = inventedSwing({ plumb: false, knownLength: false, headBox: false }).clips;
  if (clip === undefined) throw new Error('the swing was filmed face on, too');
  const pair = (hidden: boolean) => ({
    ...clip,
    marks: clip.marks.map((marks) => ({
      ...marks,
      points: { 'lead-hip': { x: 500, y: 590, hidden }, 'trail-hip': { x: 520, y: 590, hidden } },
    })),
  });
  expect(questionsOf(pair(false), 'right')).toEqual([{ kind: 'hand', view: 'face-on', handedness: 'right' }]);
  expect(questionsOf(pair(true), 'right')).toEqual([]);
});

test('the same line on many frames is asked about once', () => {
  const [clip] = inventedSwing({ plumb: false, knownLength: false, headBox: false }).clips;
  if (clip === undefined) throw new Error('the swing was filmed down the line');
  const shape = line('level', { x: 500, y: 100 }, { x: 500, y: 900 }, null);
  const copied = { ...clip, marks: clip.marks.map((marks) => ({ ...marks, shapes: [shape] })) };
  expect(questionsOf(copied, 'right')).toEqual([{ kind: 'crossed', view: 'down-the-line', role: 'level' }]);
});
