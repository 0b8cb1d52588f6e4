import { expect, test } from 'vitest';
import { readingsToShow } from '../../../../core/measure/readings/pinned.ts';
import type { ReadingKey } from '../../../../core/model/reading.ts';

const key = (id: ReadingKey['id'], aspect: ReadingKey['aspect'] = 'value'): ReadingKey => ({
  ...{ id, aspect },
  view: 'down-the-line',
  checkpoint: 'top',
});
const CELL = [key('back-incline'), key('hip-line'), key('hip-line', 'change'), key('shoulder-to-spine')];

test('where nothing is pinned, or only in other cells, all readings of a cell stand on its still', () => {
  expect(readingsToShow(CELL, [])).toEqual(CELL);
  expect(readingsToShow(CELL, [{ ...key('hip-line'), view: 'face-on' }])).toEqual(CELL);
  expect(readingsToShow(CELL, [{ ...key('hip-line'), checkpoint: 'impact' }])).toEqual(CELL);
});

test('pinned ones stand alone, in the order of the list; a value brings its change along', () => {
  expect(readingsToShow(CELL, [key('shoulder-to-spine'), key('hip-line')])).toEqual([CELL[1], CELL[2], CELL[3]]);
  expect(readingsToShow(CELL, [key('hip-line', 'change')])).toEqual([CELL[2]]);
});

test('a pin of what is not measured hides nothing', () => {
  expect(readingsToShow(CELL, [key('shaft-incline')])).toEqual(CELL);
  expect(readingsToShow([], [key('shaft-incline')])).toEqual([]);
});
