import { join } from 'node:path';
import { expect, test } from 'vitest';
import { takeFfmpeg } from '../../electron/runtime/take-ffmpeg.ts';
import { LARGE, ROW_NAMES, planFigures } from '../bench/bars.ts';
import type { ClipName, RowName } from '../bench/bars.ts';
import { createBenchRun } from '../bench/bench-run.ts';
import { openClipStore } from '../bench/clips/clip-store.ts';
import { SHORT_FILMS } from '../bench/clips/recipes.ts';
import { createLedger } from '../bench/figures.ts';
import type { Figure } from '../bench/figures.ts';
import { takeAll } from '../bench/take-all.ts';
import { drawn } from '../support/drawn.ts';
import { sized } from '../support/sized.ts';

/**
 * `npm run bench` in short, on small films: each of its parts still finds what it presses and reads, and what is no time
 * meets its bar. Times are claimed by the long form alone.
 */

type Part = { readonly clip: ClipName; readonly rows: readonly RowName[] };

/** The copy of a film this small is whole before a jump could come sooner; a clip of three minutes is not small. */
const NOT_IN_SHORT: readonly RowName[] = ['unready', 'talk', 'long', 'keep'];
/** One of them a commit. */
const PER_COMMIT: readonly Part[] = [
  { clip: '1080p240', rows: ['index', 'first', 'step', 'held', 'wrong'] },
  { clip: '1080p240', rows: ['copy', 'jump', 'cell', 'sharp'] },
  { clip: LARGE, rows: ['drag'] },
];
/** They open several windows each, and press nothing that the others do not. */
const LONG: readonly Part[] = [
  { clip: '1080p240', rows: ['memory'] },
  { clip: '1080p240', rows: ['length'] },
  { clip: '1080p240', rows: ['two'] },
];
const PARTS = [...drawn(PER_COMMIT), ...sized([], LONG)];

async function figuresOf(clip: ClipName, rows: readonly RowName[]): Promise<readonly Figure[]> {
  const said: string[] = [];
  const say = (line: string): void => void said.push(line);
  const ledger = createLedger(planFigures([clip], rows));
  const projectFolder = join(import.meta.dirname, '..', '..');
  const store = openClipStore(projectFolder, { ffmpeg: await takeFfmpeg(say), films: SHORT_FILMS, say });
  const failed = await takeAll(createBenchRun({ rows, quick: true }, { store, ledger, say }), [clip]);
  expect(failed, said.join('\n')).toEqual([]);
  const figures = ledger.figures();
  expect(
    figures.filter(({ value }) => value === null),
    said.join('\n'),
  ).toEqual([]);
  return figures;
}

test('the short form has every row of the bench but those it says', () => {
  const taken = [...PER_COMMIT, ...LONG].flatMap(({ rows }) => rows);
  expect([...taken, ...NOT_IN_SHORT].toSorted()).toEqual([...ROW_NAMES].toSorted());
});

test.each(PARTS)('takes its figures of $clip: $rows', { timeout: 400_000 }, async ({ clip, rows }) => {
  const figures = await figuresOf(clip, rows);
  expect(figures.length).toBeGreaterThanOrEqual(3);
  const exact = figures.filter(({ name }) => /^wrong frames$|skipped|out of order/.test(name));
  expect(exact.map(({ value }) => value)).toEqual(exact.map(() => 0));
  expect(exact).toHaveLength(rows.includes('wrong') && rows.includes('held') ? 3 : 0);
  for (const { value } of figures.filter(({ name }) => name === 'requests checked'))
    expect(value).toBeGreaterThanOrEqual(250);
});
