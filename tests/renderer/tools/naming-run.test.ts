import { expect, test } from 'vitest';
import {
  beginNaming,
  nameBefore,
  nameFrame,
  namedInRounds,
  namingShown,
  stepFrames,
} from '../../../renderer/tools/naming-run.ts';

const choices = [
  { clipId: 'a', checkpoint: 'top', frame: { index: 50, pts: 500 } },
  { clipId: 'a', checkpoint: 'impact', frame: { index: 70, pts: 700 } },
] as const;
const showings = [
  { choice: 1, round: 1 },
  { choice: 0, round: 1 },
  { choice: 0, round: 2 },
  { choice: 1, round: 2 },
];

test('frames are chosen showing by showing, and told by round', () => {
  let run = beginNaming(choices, showings, [60, 40, 55, 80]);
  expect(namingShown(run)?.checkpoint).toBe('impact');
  run = nameFrame(stepFrames(run, 11, 100));
  expect([namingShown(run)?.checkpoint, run.index]).toEqual(['top', 40]);
  run = nameFrame(stepFrames(run, 9, 100));
  run = nameFrame(stepFrames(run, -4, 100));
  run = nameFrame(stepFrames(run, -10, 100));
  expect(namingShown(run)).toBeNull();
  expect([namedInRounds(run, 0), namedInRounds(run, 1)]).toEqual([
    [49, 51],
    [71, 70],
  ]);
});

test('steps end with the clip, and going back brings the frame that was chosen', () => {
  let run = beginNaming(choices, showings, [60, 40, 55, 80]);
  expect(stepFrames(run, 1000, 100).index).toBe(99);
  expect(stepFrames(run, -1000, 100).index).toBe(0);
  expect(nameBefore(run)).toBe(run);
  run = nameBefore(nameFrame(stepFrames(run, 3, 100)));
  expect([run.at, run.index, run.named]).toEqual([0, 63, []]);
});
