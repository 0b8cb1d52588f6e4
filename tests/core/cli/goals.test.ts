import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { goalsFileOf } from '../../../core/parse/goals.ts';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import { readGoalsFile } from '../../../core/goals-file/read-goals-file.ts';
import { writeGoalsFile } from '../../../core/goals-file/write-goals-file.ts';
import { writeSwingFile } from '../../../core/swing-file/write-swing-file.ts';
import { EMPTY_PAGE } from '../../../core/model/lesson-page.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { newBook, reopen } from '../book/with-book.ts';
import { sampleGoals } from '../goals-file/sample-goals.ts';
import { inventedSwing } from '../measure/invented-swing.ts';
import { baybook } from './run-baybook.ts';

/** The folder of a book that nobody has open. */
function closedBook(): string {
  const book = newBook();
  book.close();
  return book.folder;
}

describe('baybook goals', () => {
  it('shows the shipped goals of a new book, in words and as a goals file', async () => {
    const folder = closedBook();
    const words = await baybook('goals', 'show', '--book', folder);
    expect(words.code).toBe(0);
    expect(words.out).toContain('Shoulders to spine (lead arm level, top), 90°');
    expect(words.out).toContain('  too high: ');
    expect(words.out).toContain('Chain Flatter shoulder turn');
    const json = await baybook('goals', 'show', '--json', '--book', folder);
    expect(JSON.parse(json.out)).toEqual(goalsFileOf(SHIPPED_GOALS));
  });

  it('imports a file, exports the same, and never replaces a file', async () => {
    const folder = closedBook();
    const files = temporaryFolder();
    const [mine, back] = [join(files, 'mine.json'), join(files, 'back.json')];
    await writeGoalsFile(mine, sampleGoals());
    expect((await baybook('goals', 'import', mine, '--book', folder)).code).toBe(0);
    expect((await baybook('goals', 'export', back, '--book', folder, '--json')).out).toBe(
      JSON.stringify({ book: folder, file: back }),
    );
    expect(await readGoalsFile(back)).toEqual(sampleGoals());
    const again = await baybook('goals', 'export', back, '--book', folder);
    expect([again.code, again.said.length]).toEqual([2, 1]);
    expect(again.said[0]).toContain('already there');
  });

  it('shows limits in inches where that is asked for; other units are refused', async () => {
    const folder = closedBook();
    const file = join(temporaryFolder(), 'mine.json');
    const wanted = [{ ...sampleGoals().wanted[0], reading: 'hip-rise', from: null, to: 5.08, unit: 'cm' }];
    writeFileSync(file, JSON.stringify({ ...goalsFileOf(sampleGoals()), wanted }));
    await baybook('goals', 'import', file, '--book', folder);
    expect((await baybook('goals', 'show', '--book', folder, '--units', 'imperial')).out).toContain(', 2 in or less');
    expect((await baybook('goals', 'show', '--book', folder)).out).toContain(', 5.08 cm or less');
    const { code, said } = await baybook('goals', 'show', '--book', folder, '--units', 'ells');
    expect([code, said.join(' ')]).toEqual([2, expect.stringContaining('not metric or imperial')]);
  });

  it('changes nothing for a file that holds no goals', async () => {
    const folder = closedBook();
    const wrong = join(temporaryFolder(), 'wrong.json');
    writeFileSync(wrong, JSON.stringify({ ...goalsFileOf(sampleGoals()), chains: [{}] }));
    const { code, said } = await baybook('goals', 'import', wrong, '--book', folder);
    expect({ code, said }).toEqual({ code: 2, said: ['This is not a goals file: chains[0].name is missing.'] });
    expect(reopen(folder).readGoals().shipped).toBe(true);
  });

  it('makes no book of a mistyped folder, and says what is missing', async () => {
    const nowhere = join(temporaryFolder(), 'boook');
    for (const [argv, sentence] of [
      [['goals', 'show', '--book', nowhere], 'There is no book in'],
      [['goals', 'show', 'a.json', '--book', nowhere], 'show takes no file'],
      [['goals', 'export', '--book', nowhere], 'Say which file to export'],
      [['goals', 'burn', '--book', nowhere], '"burn" is not show, export or import'],
    ] as const) {
      const { code, said } = await baybook(...argv);
      expect(code).toBe(2);
      expect(said[0]).toContain(sentence);
    }
    expect(existsSync(nowhere)).toBe(false);
  });
});

describe('baybook compare --goals', () => {
  it('takes the tolerances of the file: within what is wide enough nothing changed, what is not there tells nothing', async () => {
    const folder = temporaryFolder();
    const swing = inventedSwing();
    const file = {
      ...({ format: 'baybook-swing', version: 2, student: { firstName: 'Ada' }, pins: [], page: EMPTY_PAGE } as const),
      lesson: { date: swing.date, club: swing.club, handedness: swing.handedness },
      clips: swing.clips.map((clip) => ({
        ...{ ...clip, file: 'a.mp4', sha256: 'a'.repeat(64) },
        // Ids of shapes are UUIDs in a file.
        marks: clip.marks.map((marks) => ({ ...marks, shapes: [] })),
      })),
    };
    await writeSwingFile(join(folder, 'swing.json'), file);
    const verdicts = async (within: number | null): Promise<unknown[]> => {
      const path = join(folder, `${String(within)}.json`);
      const tolerances =
        within === null ? [] : [{ reading: 'back-incline', aspect: 'value', unit: 'deg', within } as const];
      await writeGoalsFile(path, { ...sampleGoals(), tolerances });
      const both = join(folder, 'swing.json');
      const { out } = await baybook('compare', both, both, '--json', '--goals', path);
      const read: { comparisons: { id: string; verdict: string }[] } = JSON.parse(out);
      return read.comparisons.filter(({ id }) => id === 'back-incline').map(({ verdict }) => verdict);
    };
    expect(new Set(await verdicts(90))).toEqual(new Set(['no change']));
    expect(new Set(await verdicts(0.001))).toEqual(new Set(["can't tell"]));
    expect(new Set(await verdicts(null))).toEqual(new Set(["can't tell"]));
    expect(readdirSync(folder)).toContain('null.json');
  });
});
