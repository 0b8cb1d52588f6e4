import { expect, test } from 'vitest';
import { addTallies, judge, readTally } from '../support/run-part.ts';

const report = { numPassedTests: 5, numFailedTests: 1, numPendingTests: 2, numTodoTests: 1 };

test('tests are counted from the report, and what did not run is left out', () => {
  expect(readTally(report)).toEqual({ passed: 5, failed: 1, leftOut: 3 });
  for (const broken of [null, 'text', {}, { ...report, numPassedTests: -1 }, { ...report, numTodoTests: '1' }])
    expect(readTally(broken)).toBeNull();
});

test('a run counts as failed when it ran nothing, left no report, or ended badly without saying why', () => {
  const good = { passed: 5, failed: 0, leftOut: 0 };
  expect(judge(0, good)).toEqual(good);
  expect(judge(1, { ...good, failed: 2 })).toEqual({ ...good, failed: 2 });
  expect(judge(0, { passed: 0, failed: 0, leftOut: 4 })).toEqual({ passed: 0, failed: 1, leftOut: 4 });
  expect(judge(1, good)).toEqual({ ...good, failed: 1 });
  expect(judge(null, good)).toEqual({ ...good, failed: 1 });
  expect(judge(0, null)).toEqual({ passed: 0, failed: 1, leftOut: 0 });
});

test('parts add up', () => {
  expect(addTallies({ passed: 1, failed: 2, leftOut: 3 }, { passed: 10, failed: 20, leftOut: 30 })).toEqual({
    passed: 11,
    failed: 22,
    leftOut: 33,
  });
});
