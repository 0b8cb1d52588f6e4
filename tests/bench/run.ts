import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { takeFfmpeg } from '../../electron/runtime/take-ffmpeg.ts';
import { planFigures } from './bars.ts';
import { createBenchRun } from './bench-run.ts';
import { openClipStore } from './clips/clip-store.ts';
import { FILMS } from './clips/recipes.ts';
import { createLedger } from './figures.ts';
import { readMachine } from './machine.ts';
import { parseOptions } from './options.ts';
import type { BenchOptions } from './options.ts';
import { reportText } from './report.ts';
import { figureTable } from './table.ts';
import { takeAll } from './take-all.ts';

/**
 * `npm run bench`: how quick and how exact frames are, on this machine, against plain ffmpeg in the same run. Options:
 * --json, --out <file>, --clip <name>, --figure <row>, --quick. Ends with 0 when it ran to its end, whatever the figures.
 */

const projectFolder = join(import.meta.dirname, '..', '..');

let options: BenchOptions | null = null;
try {
  options = parseOptions(process.argv.slice(2));
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error));
  process.exitCode = 2;
}
if (options !== null) await measure(options);

async function measure({ clips, rows, json, out, quick }: BenchOptions): Promise<void> {
  const start = performance.now();
  const say = (line: string): void =>
    console.error(`${((performance.now() - start) / 1000).toFixed(0).padStart(5)} s  ${line}`);
  const ffmpeg = await takeFfmpeg(say);
  const store = openClipStore(projectFolder, { ffmpeg, films: FILMS, say });
  const ledger = createLedger(planFigures(clips, rows));
  const run = createBenchRun({ rows, quick }, { store, ledger, say });
  const where = await readMachine(ffmpeg, say);
  await takeAll(run, clips);

  const figures = ledger.figures();
  const text = reportText({ ...where, figures });
  if (out !== null) await writeFile(out, text);
  if (json) process.stdout.write(text);
  else {
    console.log(`${JSON.stringify(where.machine)}\n${where.renderer}\n\n${figureTable(figures)}`);
    const missed = figures.filter(({ ok }) => !ok).length;
    console.log(`\n${figures.length} figures, ${missed} missed.`);
  }
}
