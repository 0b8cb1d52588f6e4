import { mkdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { AppError } from '../../core/model/errors.ts';
import { runCommand, type CommandEnd } from '../../electron/runtime/run-command.ts';
import type { Part, Step } from './test-parts.ts';

/** Tests counted. `leftOut` are tests that said they did not run. */
export interface Tally {
  readonly passed: number;
  readonly failed: number;
  readonly leftOut: number;
}

const STEP_LIMIT = 20 * 60_000;

/** Runs one part to its end. What cannot be prepared or started counts as one failed test and is told by `say`. */
export async function runPart(projectFolder: string, part: Part, say: (line: string) => void): Promise<Tally> {
  try {
    await part.prepare(projectFolder, say);
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    say(error.message);
    return { passed: 0, failed: 1, leftOut: 0 };
  }
  let sum: Tally = { passed: 0, failed: 0, leftOut: 0 };
  for (const step of part.steps) sum = addTallies(sum, await runStep(projectFolder, step, say));
  return sum;
}

export function addTallies(a: Tally, b: Tally): Tally {
  return { passed: a.passed + b.passed, failed: a.failed + b.failed, leftOut: a.leftOut + b.leftOut };
}

async function runStep(projectFolder: string, step: Step, say: (line: string) => void): Promise<Tally> {
  if ('script' in step) {
    const end = await runScript(projectFolder, step.script, step.args);
    say(`${step.name}: ${end.exitCode === 0 ? 'passed' : 'failed'}`);
    return end.exitCode === 0 ? { passed: 1, failed: 0, leftOut: 0 } : { passed: 0, failed: 1, leftOut: 0 };
  }
  const folder = join(projectFolder, '.cache', 'test-reports');
  await mkdir(folder, { recursive: true });
  const report = join(folder, `${step.name}.json`);
  await rm(report, { force: true });
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const end = await runScript(projectFolder, 'vitest/vitest.mjs', ['run', ...step.vitest, ...reporters]);
  const text = await readFile(report, 'utf8').catch(() => null);
  return judge(end.exitCode, text === null ? null : readTally(JSON.parse(text)));
}

function runScript(projectFolder: string, script: string, args: readonly string[]): Promise<CommandEnd> {
  const path = join(projectFolder, 'node_modules', script);
  return runCommand(process.execPath, [path, ...args], { folder: projectFolder, timeLimit: STEP_LIMIT, shown: true });
}

/**
 * What a run amounts to: no report, no test that ran, and an exit code that no counted failure explains (a file that
 * did not load, an error outside of any test) are each a failed test.
 */
export function judge(exitCode: number | null, tally: Tally | null): Tally {
  if (tally === null) return { passed: 0, failed: 1, leftOut: 0 };
  const ranNothing = tally.passed + tally.failed === 0;
  const unexplained = exitCode !== 0 && tally.failed === 0;
  return ranNothing || unexplained ? { ...tally, failed: tally.failed + 1 } : tally;
}

/** Counts from the JSON report of vitest; null when it is none. */
export function readTally(report: unknown): Tally | null {
  const passed = readCount(report, 'numPassedTests');
  const failed = readCount(report, 'numFailedTests');
  const pending = readCount(report, 'numPendingTests');
  const todo = readCount(report, 'numTodoTests');
  if (passed === null || failed === null || pending === null || todo === null) return null;
  return { passed, failed, leftOut: pending + todo };
}

function readCount(report: unknown, name: string): number | null {
  if (typeof report !== 'object' || report === null) return null;
  const value: unknown = Object.entries(report).find(([key]) => key === name)?.[1];
  return typeof value === 'number' && Number.isInteger(value) && value >= 0 ? value : null;
}
