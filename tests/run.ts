import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { check, describeFacts } from '../core/cli/check.ts';
import { prepareParts, runPart } from './support/run-part.ts';
import { addTallies, type Outcome, type Tally } from './support/test-report.ts';

/**
 * `npm test` runs all parts, `npm test -- unit media` some, `npm run check` the first. `npm run test:long` (`--long`) runs
 * what is sampled per commit at its full size (tests/support/sized.ts, drawn.ts); `--all` runs all files that a commit may
 * leave out (tests/support/files-of-commit.ts), at a commit's size. It gets what the machine lacks
 * (or names it), lists every test that failed, and ends with one line, "N passed, N failed". The exit code is 0 only when
 * nothing failed.
 */

const projectFolder = join(import.meta.dirname, '..');
const say = (line: string): void => console.log(line);

const words = process.argv.slice(2);
if (words.includes('--long')) process.env['BAYBOOK_TESTS'] = 'long';
if (words.includes('--all')) process.env['BAYBOOK_FILES'] = 'all';
const wanted = words.filter((word) => !['--long', '--all'].includes(word));
// Which files a part runs follows from these two.
const { PARTS } = await import('./support/test-parts.ts');
const unknown = wanted.filter((name) => !PARTS.some((part) => part.name === name));
if (unknown.length > 0) {
  console.error(`There is no part "${unknown.join(' ')}". Parts: ${PARTS.map((part) => part.name).join(', ')}.`);
  process.exit(2);
}
const parts = PARTS.filter((part) => wanted.length === 0 || wanted.includes(part.name));

const results: { readonly name: string; readonly outcome: Outcome; readonly seconds: number }[] = [];
const prepared = prepareParts(projectFolder, parts, say);
for (const part of parts) {
  say(`\n== ${part.name}`);
  const start = performance.now();
  const outcome = refuseLeftOut(await runPart(projectFolder, part, prepared.get(part), say));
  results.push({ name: part.name, outcome, seconds: Math.round((performance.now() - start) / 1000) });
}

say('\n== this machine');
for (const line of describeFacts(await check())) say(line);
say('\n== results');
for (const { name, outcome, seconds } of results) say(`${name.padEnd(9)}${describeTally(outcome)} (${seconds} s)`);
// At the very end, because what is kept of a long log is often only its end.
for (const { name, outcome } of results)
  for (const trouble of outcome.failed === 0 ? [] : outcome.troubles) say(`${name}: ${trouble}`);

for (const { name, outcome } of results)
  for (const test of outcome.unsteady ?? []) say(`${name}: passed only when run again alone: ${test}`);

const sum = results.map(({ outcome }): Tally => outcome).reduce(addTallies);
say(`\n${sum.passed} passed, ${sum.failed} failed`);
process.exitCode = sum.failed === 0 ? 0 : 1;

/** Only what the absent outside clips would have checked may be left out, and not in continuous integration. */
function refuseLeftOut(outcome: Outcome): Outcome {
  const allowed = !process.env['CI'] && !existsSync(join(projectFolder, '..', 'shared', 'media'));
  if (allowed || outcome.leftOut === 0) return outcome;
  return { ...outcome, failed: outcome.failed + outcome.leftOut, leftOut: 0 };
}

function describeTally({ passed, failed, leftOut }: Tally): string {
  return `${passed} passed, ${failed} failed${leftOut === 0 ? '' : `, ${leftOut} left out`}`;
}
