import { expect, test } from 'vitest';
import { addTallies, judge, readReport } from '../support/test-report.ts';

const report = {
  numPassedTests: 1,
  numFailedTests: 1,
  numPendingTests: 2,
  numTodoTests: 1,
  testResults: [
    {
      name: '/project/tests/media/clips.test.ts',
      message: '',
      assertionResults: [
        { fullName: 'clips open', status: 'passed', failureMessages: [] },
        { fullName: 'clips close', status: 'failed', failureMessages: ['Error: still open\n    at line 3'] },
        { fullName: 'clips later', status: 'todo', failureMessages: [] },
      ],
    },
    {
      name: '/project/tests/media/stills.test.ts',
      message: 'Hook timed out in 180000ms.\nmore',
      assertionResults: [
        { fullName: 'one still', status: 'skipped', failureMessages: [] },
        { fullName: 'two stills', status: 'pending', failureMessages: [] },
      ],
    },
  ],
};

test('tests are counted from the report, and what did not run is left out', () => {
  expect(readReport(report)).toMatchObject({ passed: 1, failed: 1, leftOut: 3 });
  for (const broken of [null, 'text', {}, { ...report, numPassedTests: -1 }, { ...report, numTodoTests: '1' }])
    expect(readReport(broken)).toBeNull();
});

test('every test that did not pass is named, with the first line of why', () => {
  expect(readReport(report)?.troubles).toEqual([
    'clips.test.ts: clips close: Error: still open',
    'clips.test.ts: clips later: did not run',
    'stills.test.ts: Hook timed out in 180000ms.',
    'stills.test.ts: one still: did not run',
    'stills.test.ts: two stills: did not run',
  ]);
});

test('a run counts as failed when it ran nothing, left no report, or ended badly without saying why', () => {
  const good = { passed: 5, failed: 0, leftOut: 0, troubles: [] };
  expect(judge(0, good)).toEqual(good);
  expect(judge(1, { ...good, failed: 2 })).toEqual({ ...good, failed: 2 });
  expect(judge(0, { ...good, passed: 0, leftOut: 4 })).toMatchObject({ passed: 0, failed: 1, leftOut: 4 });
  for (const exitCode of [1, null]) {
    const judged = judge(exitCode, good);
    expect(judged).toMatchObject({ passed: 5, failed: 1 });
    expect(judged.troubles).toHaveLength(1);
  }
  expect(judge(0, null)).toEqual({ passed: 0, failed: 1, leftOut: 0, troubles: ['the tests left no report'] });
});

test('parts add up', () => {
  expect(addTallies({ passed: 1, failed: 2, leftOut: 3 }, { passed: 10, failed: 20, leftOut: 30 })).toEqual({
    passed: 11,
    failed: 22,
    leftOut: 33,
  });
});
