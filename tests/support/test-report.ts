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
  /** Tests that failed beside others and passed alone; to be mended, though the run counts as passed. */
  readonly unsteady?: readonly string[];
}

/** What the report says of one file, by its path. */
export type Reported = ReadonlyMap<string, Outcome>;

/** How a run of vitest ended; `reported` is null where it left no report. */
export interface VitestEnd {
  readonly exitCode: number | null;
  readonly reported: Reported | null;
}

const Test = v.object({ fullName: v.string(), status: v.string(), failureMessages: v.array(v.string()) });
const File = v.object({ name: v.string(), message: v.string(), assertionResults: v.array(Test) });
type FileResult = v.InferOutput<typeof File>;
const Report = v.object({ testResults: v.array(File) });

/** Reads the JSON report of vitest; null when it is none. */
export function readReport(report: unknown): Reported | null {
  const read = v.safeParse(Report, report);
  if (!read.success) return null;
  return new Map(read.output.testResults.map((result) => [result.name, outcomeOf(result)]));
}

function outcomeOf({ name, message, assertionResults }: FileResult): Outcome {
  const file = name.split(/[\\/]/).at(-1) ?? name;
  const passed = assertionResults.filter(({ status }) => status === 'passed').length;
  const failed = assertionResults.filter(({ status }) => status === 'failed').length;
  // A file that did not load, or whose preparation failed, has its reason beside its tests.
  const ofFile = message === '' ? [] : [`${file}: ${firstLine(message)}`];
  const ofTests = assertionResults
    .filter(({ status }) => status !== 'passed')
    .map((test) => `${file}: ${test.fullName}: ${firstLine(test.failureMessages[0] ?? 'did not run')}`);
  return { passed, failed, leftOut: assertionResults.length - passed - failed, troubles: [...ofFile, ...ofTests] };
}

/** The files of which not all passed. */
export function badFiles(reported: Reported): string[] {
  return [...reported].filter(([, { troubles }]) => troubles.length > 0).map(([name]) => name);
}

/** The first run with what running its bad files again, alone, came to; what passes only then is called unsteady. */
export function withSecond(first: Reported, second: Reported): Reported {
  return new Map(
    [...first].map(([name, outcome]) => {
      const again = second.get(name);
      if (again === undefined) return [name, outcome];
      return [name, again.troubles.length > 0 ? again : { ...again, unsteady: outcome.troubles }];
    }),
  );
}

/**
 * What a run amounts to: no report, no test that ran, and an exit code that no counted failure explains (a file that
 * did not load, an error outside of any test) are each a failed test.
 */
export function judge({ exitCode, reported }: VitestEnd): Outcome {
  if (reported === null) return failedOnce('the tests left no report');
  const outcome = [...reported.values()].reduce(addOutcomes, NOTHING);
  const more = (why: string): Outcome => ({
    ...outcome,
    failed: outcome.failed + 1,
    troubles: [...outcome.troubles, why],
  });
  if (outcome.passed + outcome.failed === 0) return more('no test ran');
  if (exitCode !== 0 && outcome.failed === 0) return more('the run failed outside of its tests: see above');
  return outcome;
}

const NOTHING: Outcome = { passed: 0, failed: 0, leftOut: 0, troubles: [] };

export function addOutcomes(a: Outcome, b: Outcome): Outcome {
  const unsteady = [...(a.unsteady ?? []), ...(b.unsteady ?? [])];
  return {
    ...addTallies(a, b),
    troubles: [...a.troubles, ...b.troubles],
    ...(unsteady.length === 0 ? {} : { unsteady }),
  };
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
