import { expect, test } from 'vitest';
import {
  sharedViews,
  sheetCheckpoints,
  showableCheckpoints,
  usualCheckpoints,
  viewsToShow,
} from '../../../core/report/checkpoints.ts';
import { markedClip, markedSwing } from '../jobs/marked-swing.ts';

const both = markedSwing('2026-06-12', [
  markedClip('face-on', { address: 2, impact: 14, finish: 18 }),
  markedClip('down-the-line', { address: 2, top: 9 }),
]);
const line = markedSwing('2026-05-12', [markedClip('down-the-line', { address: 1, top: 7, takeaway: 4 })]);
const views = ['down-the-line', 'face-on'] as const;

test('a view is shown where every swing has it, a checkpoint where one of the views has it in every swing', () => {
  expect(sharedViews([both])).toEqual(views);
  expect(sharedViews([line, both])).toEqual(['down-the-line']);
  expect(sharedViews([{ clips: [] }])).toEqual([]);
  expect(showableCheckpoints([both], views)).toEqual(['address', 'top', 'impact', 'finish']);
  expect(showableCheckpoints([line, both], views)).toEqual(['address', 'top']);
  expect(viewsToShow([both], views, ['impact'])).toEqual(['face-on']);
});

test('unless told otherwise the usual ones are shown, whichever view has them; where none is named, all that are', () => {
  expect(usualCheckpoints([both], views)).toEqual(['address', 'top', 'impact']);
  const late = markedSwing('2026-06-12', [markedClip('face-on', { through: 15, finish: 18 })]);
  expect(usualCheckpoints([late], ['face-on'])).toEqual(['through', 'finish']);
  expect(usualCheckpoints([late], ['down-the-line'])).toEqual([]);
});

test('the sheet has a row for each usual one, to be found, and for all that are named', () => {
  expect(sheetCheckpoints({ clips: [] })).toEqual(['address', 'top', 'impact']);
  expect(sheetCheckpoints(line)).toEqual(['address', 'takeaway', 'top', 'impact']);
});
