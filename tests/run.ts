import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { check, describeFacts } from '../core/cli/check.ts';
import { addTallies, runPart, type Tally } from './support/run-part.ts';
import { PARTS } from './support/test-parts.ts';

/**
 * `npm test` runs all parts, `npm test -- unit media` some, `npm run check` the first. It gets what the machine lacks
 * (or names it), and ends with one line, "N passed, N failed". The exit code is 0 only when nothing failed.
 */

const projectFolder = join(import.meta.dirname, '..');
const say = (line: string): void => console.log(line);

const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !PARTS.some((part) => part.name === name));
if (unknown.length > 0) {
  console.error(`There is no part "${unknown.join(' ')}". Parts: ${PARTS.map((part) => part.name).join(', ')}.`);
  process.exit(2);
}
const parts = PARTS.filter((part) => wanted.length === 0 || wanted.includes(part.name));

const results: { readonly name: string; readonly tally: Tally; readonly seconds: number }[] = [];
for (const part of parts) {
  say(`\n== ${part.name}`);
  const start = performance.now();
  const tally = refuseLeftOut(await runPart(projectFolder, part, say));
  results.push({ name: part.name, tally, seconds: Math.round((performance.now() - start) / 1000) });
}

say('\n== this machine');
for (const line of describeFacts(await check())) say(line);
say('\n== results');
for (const { name, tally, seconds } of results) say(`${name.padEnd(9)}${describeTally(tally)} (${seconds} s)`);

const sum = results.map(({ tally }) => tally).reduce(addTallies);
say(`\n${sum.passed} passed, ${sum.failed} failed`);
process.exitCode = sum.failed === 0 ? 0 : 1;

/** Only what the absent outside clips would have checked may be left out, and not in continuous integration. */
function refuseLeftOut(tally: Tally): Tally {
  const allowed = !process.env['CI'] && !existsSync(join(projectFolder, '..', 'shared', 'media'));
  return allowed || tally.leftOut === 0 ? tally : { ...tally, failed: tally.failed + tally.leftOut, leftOut: 0 };
}

function describeTally({ passed, failed, leftOut }: Tally): string {
  return `${passed} passed, ${failed} failed${leftOut === 0 ? '' : `, ${leftOut} left out`}`;
}
