import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { judge, readReport } from '../support/test-report.ts';

const PROJECT = join(import.meta.dirname, '..', '..');

/** A table of its own is all that this file reads; its tests without the table are counted by hand. */
const FILE = 'tests/outside/plausible-ranges.test.ts';
const WITHOUT_THE_TABLE = 2;

/** Runs the file on a machine where no outside file lies. */
function runWithout(environment: Readonly<Record<string, string>>) {
  const folder = temporaryFolder();
  const report = join(folder, 'report.json');
  const vitest = join(PROJECT, 'node_modules', 'vitest', 'vitest.mjs');
  const args = [vitest, 'run', '--project', 'outside', FILE, '--reporter=json', `--outputFile.json=${report}`];
  const env = { ...process.env, BAYBOOK_OUTSIDE_MEDIA: folder, ...environment };
  const { status } = spawnSync(process.execPath, args, { cwd: PROJECT, env });
  return judge({ exitCode: status, reported: readReport(JSON.parse(readFileSync(report, 'utf8'))) });
}

test('a test that does not find its outside file is left out and counted so; with CI=true it fails', () => {
  const absent = runWithout({ CI: '' });
  expect(absent).toMatchObject({ passed: WITHOUT_THE_TABLE, failed: 0 });
  expect(absent.leftOut).toBeGreaterThan(10);
  const inCi = runWithout({ CI: 'true' });
  expect(inCi).toMatchObject({ passed: WITHOUT_THE_TABLE, failed: 1 });
}, 60_000);
