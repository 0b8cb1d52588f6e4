import { mkdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { AppError } from '../../core/model/errors.ts';
import { runCommand, type CommandEnd } from '../../electron/runtime/run-command.ts';
import type { Part, Step } from './test-parts.ts';
import { addOutcomes, badFiles, failedOnce, judge, readReport, withSecond } from './test-report.ts';
import type { Outcome, VitestEnd } from './test-report.ts';

/** Per commit a part that takes so long hangs; at full length one may take hours. */
const stepLimit = (): number => (process.env['BAYBOOK_TESTS'] === 'long' ? 8 * 60 : 20) * 60_000;

/** Where more files fail than this, it is no accident of one busy moment. */
const MOST_AGAIN = 3;

/**
 * Begins to prepare all parts, one after the other, each promise for one part. What the last ones fetch and build is done
 * beside the tests of the first ones.
 */
export function prepareParts(
  projectFolder: string,
  parts: readonly Part[],
  say: (line: string) => void,
): ReadonlyMap<Part, Promise<void>> {
  let before = Promise.resolve();
  return new Map(
    parts.map((part) => {
      const own = before.then(() => part.prepare(projectFolder, say));
      // Whoever runs the part hears of its trouble; the next part is prepared all the same.
      before = own.catch(() => undefined);
      return [part, own];
    }),
  );
}

/** Runs one part to its end. What cannot be prepared or started counts as one failed test and is told by `say`. */
export async function runPart(
  projectFolder: string,
  part: Part,
  prepared: Promise<void> | undefined,
  say: (line: string) => void,
): Promise<Outcome> {
  try {
    await prepared;
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    say(error.message);
    return failedOnce(error.message);
  }
  // Each script uses one core; tests use all there are.
  const scripts = part.steps.filter((step) => 'script' in step).map((step) => runStep(projectFolder, step, say));
  const outcomes = await Promise.all(scripts);
  for (const step of part.steps.filter((each) => 'vitest' in each))
    outcomes.push(await runStep(projectFolder, step, say));
  return outcomes.reduce(addOutcomes);
}

async function runStep(projectFolder: string, step: Step, say: (line: string) => void): Promise<Outcome> {
  if ('script' in step) {
    const end = await runScript(projectFolder, step.script, step.args);
    say(`${step.name}: ${end.exitCode === 0 ? 'passed' : 'failed'}`);
    return end.exitCode === 0 ? { passed: 1, failed: 0, leftOut: 0, troubles: [] } : failedOnce(step.name);
  }
  const first = await runVitest(projectFolder, step.name, step.vitest);
  const again = step.again === true ? badFiles(first.reported ?? new Map()) : [];
  if (first.reported === null || again.length === 0 || again.length > MOST_AGAIN) return judge(first);

  say(`\n${again.length} files failed beside others, and run again alone:`);
  const alone = [...step.vitest.filter((word) => !/^--maxWorkers|\.test\.ts$/.test(word)), '--maxWorkers=1', ...again];
  const second = await runVitest(projectFolder, `${step.name}-again`, alone);
  if (second.reported === null) return judge(first);
  const exitCode = second.exitCode === 0 ? 0 : first.exitCode;
  return judge({ exitCode, reported: withSecond(first.reported, second.reported) });
}

async function runVitest(projectFolder: string, name: string, args: readonly string[]): Promise<VitestEnd> {
  const folder = join(projectFolder, '.cache', 'test-reports');
  await mkdir(folder, { recursive: true });
  const report = join(folder, `${name}.json`);
  await rm(report, { force: true });
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const { exitCode } = await runScript(projectFolder, 'vitest/vitest.mjs', ['run', ...args, ...reporters]);
  const text = await readFile(report, 'utf8').catch(() => null);
  return { exitCode, reported: text === null ? null : readReport(JSON.parse(text)) };
}

function runScript(projectFolder: string, script: string, args: readonly string[]): Promise<CommandEnd> {
  const path = join(projectFolder, 'node_modules', script);
  return runCommand(process.execPath, [path, ...args], { folder: projectFolder, timeLimit: stepLimit(), shown: true });
}
