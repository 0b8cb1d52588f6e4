import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runCommandLine } from '../../../core/cli/run.ts';
import { unitsFor } from '../../../core/measure/catalogue/reading-units.ts';
import { READING_IDS } from '../../../core/model/reading.ts';
import {
  honestyTable,
  powerTable,
  triedWords,
  usualSmallestWords,
  VERDICT_WORTH,
} from '../../../core/report/verdict-worth.ts';
import { isReadAt } from '../../../core/measure/catalogue/where-read.ts';
import { writeSwingFile } from '../../../core/swing-file/write-swing-file.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { sampleSwing } from '../swing-file/sample-swing.ts';

const PAGE = readFileSync(join(import.meta.dirname, '../../../docs/verdicts.md'), 'utf8');
/** Four standard errors of a part counted in so many trials. */
const slackOf = (part: number, trials: number): number => 4 * Math.sqrt((part * (1 - part)) / trials);

describe('what the program and its page say verdicts are worth', () => {
  const { lessons, pairs, smallest, date } = VERDICT_WORTH;

  it('was found by the long trial: lessons of one, three and five swings, in parts of 1', () => {
    expect(date).toMatch(/^\d{4}-\d{2}-\d{2}$/);
    expect(pairs).toBeGreaterThanOrEqual(200);
    expect(lessons.map(({ swings }) => swings)).toEqual([1, 3, 5]);
    for (const { held, changed, worthALook, noChange, power } of lessons) {
      const parts = [held.mean, held.least, changed.mean, changed.most, worthALook, ...Object.values(noChange)];
      for (const part of [
        ...parts,
        ...power.flatMap(({ seen, unsure, oracle, wrong }) => [seen, unsure, oracle, wrong]),
      ]) {
        expect(part).toBeGreaterThanOrEqual(0);
        expect(part).toBeLessThanOrEqual(1);
      }
      expect(power).toHaveLength(12);
      for (const asked of power) expect(isReadAt(asked)).toBe(true);
    }
  });

  it('keeps what is promised of it', () => {
    for (const { swings, held, changed, worthALook, noChange, power } of lessons) {
      const name = `${String(swings)} swings`;
      expect(held.mean, name).toBeGreaterThan(0.93);
      expect(held.mean, name).toBeLessThan(0.97);
      expect(held.least, name).toBeGreaterThan(0.92 - slackOf(0.92, 2 * pairs * swings) / 2);
      expect(changed.mean, name).toBeLessThan(0.06);
      expect(changed.most, name).toBeLessThan(0.06 + slackOf(0.06, pairs));
      expect(worthALook, name).toBeLessThan(0.06 + slackOf(0.06, pairs));
      expect(noChange.said, name).toBeGreaterThan(0.9 * noChange.oracle - 0.02);
      for (const { seen, unsure, oracle, wrong, id, change } of power) {
        // Whoever knows less sees less, and what is unsure of him is all that it costs.
        expect(unsure, `${name}, ${id} ${String(change)}`).toBeLessThanOrEqual(oracle);
        expect(seen, `${name}, ${id} ${String(change)}`).toBeGreaterThan(unsure - 0.03 - slackOf(0.5, 2 * pairs) / 2);
        expect(wrong, `${name}, ${id} ${String(change)}`).toBeLessThanOrEqual(0.005 + slackOf(0.005, 2 * pairs));
        expect(seen, `${name}, ${id} ${String(change)}`).toBeGreaterThan(oracle - 0.05 - slackOf(0.5, 2 * pairs) / 2);
      }
    }
  });

  it('stands on the page as it stands in the file', () => {
    const cells = (line: string) => line.split('|').map((cell) => cell.trim());
    const rows = PAGE.split('\n')
      .filter((line) => line.startsWith('|'))
      .map(cells);
    for (const table of [honestyTable(VERDICT_WORTH), powerTable(VERDICT_WORTH)])
      for (const row of table.rows) expect(rows).toContainEqual(['', ...row, '']);
    expect(PAGE).toContain(triedWords(VERDICT_WORTH));
  });

  it('tells of each reading that was tried which change shows as a rule, and less with three swings', () => {
    expect(smallest.length).toBeGreaterThan(20);
    for (const { reading, unit, one, three } of smallest) {
      expect(READING_IDS).toContain(reading);
      expect(unitsFor(reading)).toContain(unit);
      expect(three).toBeLessThan(one);
    }
    expect(usualSmallestWords('back-incline', 'value', 'deg')).toMatch(
      /^As a rule a change of [\d.]+° shows, with three swings a lesson one of [\d.]+°\.$/,
    );
    expect(usualSmallestWords('elbow-gap', 'value', 'ratio')).toBeNull();
  });

  it('is printed after a comparison where it is asked for', async () => {
    const path = join(temporaryFolder(), 'swing.json');
    await writeSwingFile(path, sampleSwing());
    const lines: string[] = [];
    const run = { out: (line: string) => lines.push(line), say: () => undefined, signal: new AbortController().signal };
    expect(await runCommandLine(['compare', path, path, '--worth'], run)).toBe(0);
    expect(lines.join('\n')).toContain(triedWords(VERDICT_WORTH));
    expect(lines.join('\n')).toMatch(/The ± of a reading holds the truth\s+\d/);
  });
});
