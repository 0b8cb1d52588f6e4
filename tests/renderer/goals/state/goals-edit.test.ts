import { describe, expect, it } from 'vitest';
import { READING_IDS } from '../../../../core/model/reading.ts';
import { parseGoalsFile, goalsFileOf } from '../../../../core/parse/goals.ts';
import {
  newChain,
  newRange,
  newTolerance,
  withEntry,
  withInserted,
  withMoved,
  without,
  withToggled,
} from '../../../../renderer/goals/state/goals-edit.ts';
import { sampleGoals } from '../../../core/goals-file/sample-goals.ts';

describe('lists', () => {
  const list = ['a', 'b', 'c'];
  it('are changed at one place, and never in place', () => {
    expect(withEntry(list, 1, 'x')).toEqual(['a', 'x', 'c']);
    expect(without(list, 0)).toEqual(['b', 'c']);
    expect(withInserted(without(list, 1), 1, 'b')).toEqual(list);
    expect(withInserted(list, 3, 'd')).toEqual(['a', 'b', 'c', 'd']);
    expect(list).toEqual(['a', 'b', 'c']);
  });

  it('move an entry by one, and stop at their ends', () => {
    expect(withMoved(list, 0, 1)).toEqual(['b', 'a', 'c']);
    expect(withMoved(list, 2, -1)).toEqual(['a', 'c', 'b']);
    expect(withMoved(list, 0, -1)).toEqual(list);
    expect(withMoved(list, 2, 1)).toEqual(list);
    expect(withMoved(list, 7, 1)).toEqual(list);
  });

  it('take a value in at its place in the order, and out again', () => {
    expect(withToggled(['c'], 'a', list)).toEqual(['a', 'c']);
    expect(withToggled(['a', 'c'], 'a', list)).toEqual(['c']);
  });
});

describe('a new entry', () => {
  it('of every reading is good as it is: a range, a tolerance, a chain', () => {
    for (const reading of READING_IDS) {
      const tolerance = newTolerance(reading, []);
      const goals = {
        ...sampleGoals(),
        wanted: [newRange(reading)],
        tolerances: tolerance === null ? [] : [tolerance],
        chains: [newChain(reading)],
      };
      expect(parseGoalsFile(goalsFileOf(goals))).toEqual(goals);
      expect(tolerance).not.toBeNull();
    }
  });

  it('of a tolerance is one that is not there yet, until all are', () => {
    const first = newTolerance('hip-rise', []);
    const second = newTolerance('hip-rise', first === null ? [] : [first]);
    expect([first?.unit, second?.unit]).toEqual(['cm', '% leg length']);
    expect(
      newTolerance(
        'hip-rise',
        [first, second].flatMap((each) => each ?? []),
      ),
    ).toBeNull();
  });
});
