import * as v from 'valibot';

/** Tests counted. `leftOut` are tests that said they did not run. */
export interface Tally {
  readonly passed: number;
  readonly failed: number;
  readonly leftOut: number;
}

/** What a run of tests amounts to; `troubles` names each test that failed or did not run, with the first line of why. */
export interface Outcome extends Tally {
  readonly troubles: readonly string[];
}

const Count = v.pipe(v.number(), v.integer(), v.minValue(0));
const Test = v.object({ fullName: v.string(), status: v.string(), failureMessages: v.array(v.string()) });
const Report = v.object({
  numPassedTests: Count,
  numFailedTests: Count,
  numPendingTests: Count,
  numTodoTests: Count,
  testResults: v.array(v.object({ name: v.string(), message: v.string(), assertionResults: v.array(Test) })),
});

/** Reads the JSON report of vitest; null when it is none. */
export function readReport(report: unknown): Outcome | null {
  const read = v.safeParse(Report, report);
  if (!read.success) return null;
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests, testResults } = read.output;
  const troubles = testResults.flatMap(({ name, message, assertionResults }) => {
    const file = name.split(/[\\/]/).at(-1) ?? name;
    // A file that did not load, or whose preparation failed, has its reason beside its tests.
    const ofFile = message === '' ? [] : [`${file}: ${firstLine(message)}`];
    const ofTests = assertionResults
      .filter(({ status }) => status !== 'passed')
      .map((test) => `${file}: ${test.fullName}: ${firstLine(test.failureMessages[0] ?? 'did not run')}`);
    return [...ofFile, ...ofTests];
  });
  return { passed: numPassedTests, failed: numFailedTests, leftOut: numPendingTests + numTodoTests, troubles };
}

/**
 * What a run amounts to: no report, no test that ran, and an exit code that no counted failure explains (a file that
 * did not load, an error outside of any test) are each a failed test.
 */
export function judge(exitCode: number | null, outcome: Outcome | null): Outcome {
  if (outcome === null) return failedOnce('the tests left no report');
  const more = (why: string): Outcome => ({
    ...outcome,
    failed: outcome.failed + 1,
    troubles: [...outcome.troubles, why],
  });
  if (outcome.passed + outcome.failed === 0) return more('no test ran');
  if (exitCode !== 0 && outcome.failed === 0) return more('the run failed outside of its tests: see above');
  return outcome;
}

export function failedOnce(why: string): Outcome {
  return { passed: 0, failed: 1, leftOut: 0, troubles: [why] };
}

export function addTallies(a: Tally, b: Tally): Tally {
  return { passed: a.passed + b.passed, failed: a.failed + b.failed, leftOut: a.leftOut + b.leftOut };
}

function firstLine(text: string): string {
  return text.split('\n', 1)[0] ?? '';
}
