import { expect, test } from 'vitest';
import { addTallies, badFiles, judge, readReport, withSecond } from '../support/test-report.ts';
import type { Outcome } from '../support/test-report.ts';

const report = {
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

const CLIPS = '/project/tests/media/clips.test.ts';
const STILLS = '/project/tests/media/stills.test.ts';

test('tests are counted from the report, and what did not run is left out', () => {
  expect(judge({ exitCode: 1, reported: readReport(report) })).toMatchObject({ passed: 1, failed: 1, leftOut: 3 });
  for (const broken of [null, 'text', {}, { testResults: [{ name: 'a' }] }, { testResults: '1' }])
    expect(readReport(broken)).toBeNull();
});

test('what passes when run again alone counts, and is named as unsteady; what fails again, or was not run, stays', () => {
  const bad = { passed: 1, failed: 1, leftOut: 0, troubles: ['clips.test.ts: clips close: Error: still open'] };
  const good = { passed: 2, failed: 0, leftOut: 0, troubles: [] };
  const first = new Map([
    [CLIPS, bad],
    [STILLS, good],
  ]);
  expect(badFiles(first)).toEqual([CLIPS]);
  const mended = withSecond(first, new Map([[CLIPS, good]]));
  expect(judge({ exitCode: 0, reported: mended })).toEqual({
    ...{ passed: 4, failed: 0, leftOut: 0, troubles: [] },
    unsteady: bad.troubles,
  });
  const worse = { passed: 0, failed: 2, leftOut: 0, troubles: ['clips.test.ts: both'] };
  const failed = judge({ exitCode: 1, reported: withSecond(first, new Map([[CLIPS, worse]])) });
  expect(failed).toEqual({ passed: 2, failed: 2, leftOut: 0, troubles: worse.troubles });
  expect(judge({ exitCode: 1, reported: withSecond(first, new Map()) })).toMatchObject({ failed: 1 });
});

test('every test that did not pass is named, with the first line of why', () => {
  const reported = readReport(report);
  expect([...(reported?.keys() ?? [])]).toEqual([CLIPS, STILLS]);
  expect([...(reported?.values() ?? [])].flatMap(({ troubles }) => troubles)).toEqual([
    'clips.test.ts: clips close: Error: still open',
    'clips.test.ts: clips later: did not run',
    'stills.test.ts: Hook timed out in 180000ms.',
    'stills.test.ts: one still: did not run',
    'stills.test.ts: two stills: did not run',
  ]);
});

test('a run counts as failed when it ran nothing, left no report, or ended badly without saying why', () => {
  const good = { passed: 5, failed: 0, leftOut: 0, troubles: [] };
  const end = (exitCode: number | null, outcome: Outcome) => judge({ exitCode, reported: new Map([[CLIPS, outcome]]) });
  expect(end(0, good)).toEqual(good);
  expect(end(1, { ...good, failed: 2 })).toEqual({ ...good, failed: 2 });
  expect(end(0, { ...good, passed: 0, leftOut: 4 })).toMatchObject({ passed: 0, failed: 1, leftOut: 4 });
  for (const exitCode of [1, null]) {
    const judged = end(exitCode, good);
    expect(judged).toMatchObject({ passed: 5, failed: 1 });
    expect(judged.troubles).toHaveLength(1);
  }
  const none = { passed: 0, failed: 1, leftOut: 0, troubles: ['the tests left no report'] };
  expect(judge({ exitCode: 0, reported: null })).toEqual(none);
});

test('parts add up', () => {
  expect(addTallies({ passed: 1, failed: 2, leftOut: 3 }, { passed: 10, failed: 20, leftOut: 30 })).toEqual({
    passed: 11,
    failed: 22,
    leftOut: 33,
  });
});
