import { copyFile, mkdir, mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openBook } from '../../core/book/open-book.ts';
import { makeDemo } from '../../core/jobs/make-demo.ts';
import { saveStills } from '../../core/jobs/save-stills.ts';
import { swingOfBook } from '../../core/jobs/swing-source.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { launchBaybook } from './launch.ts';

/** `npm run pictures`: the README's pictures, made anew from the demo in the real window and by the real stills. */

const pictures = join(import.meta.dirname, '..', '..', 'resources', 'pictures');
const work = await mkdtemp(join(tmpdir(), 'baybook-pictures-'));
try {
  await mkdir(pictures, { recursive: true });
  const bookFolder = join(work, 'book');
  await fillBook(bookFolder);
  await takeScreens(bookFolder);
} finally {
  await rm(work, { recursive: true, force: true });
}

async function fillBook(bookFolder: string): Promise<void> {
  const ffmpeg = await findFfmpeg();
  const run = { signal: new AbortController().signal, report: () => undefined };
  const clipsFolder = join(work, 'clips');
  await mkdir(clipsFolder);
  const book = openBook(bookFolder);
  try {
    const { thenSwingId, nowSwingId } = await makeDemo(book, { clipsFolder, ffmpeg }, run);
    const folder = join(work, 'stills');
    await saveStills(
      {
        now: swingOfBook(book, nowSwingId),
        then: swingOfBook(book, thenSwingId),
        checkpoints: ['top'],
        views: ['down-the-line'],
        goals: book.readGoals().goals,
        layout: 'phone',
        format: 'jpeg',
        width: 1200,
        folder,
        existing: 'refuse',
      },
      ffmpeg,
      run,
    );
    // The still's own text lies beside it.
    const stills = (await readdir(folder)).filter((name) => name.endsWith('.jpg'));
    for (const name of stills) await copyFile(join(folder, name), join(pictures, 'still-then-now.jpg'));
  } finally {
    book.close();
  }
}

async function takeScreens(bookFolder: string): Promise<void> {
  const baybook = await launchBaybook({ bookFolder, userData: join(work, 'settings'), width: 1280, height: 800 });
  const { window } = baybook;
  try {
    await window
      .getByRole('button', { name: /^Swing 1/ })
      .first()
      .click();
    await window.getByRole('button', { name: 'Open Top, Down the line, on the bench' }).waitFor();
    await everyPictureIsThere();
    await baybook.screenshot(join(pictures, 'lesson-sheet.png'));
    await window.getByRole('button', { name: 'Open Top, Down the line, on the bench' }).click();
    await window.getByText('Exact picture').waitFor();
    await everyPictureIsThere();
    await baybook.screenshot(join(pictures, 'bench.png'));
  } finally {
    await baybook.close();
  }

  /** Small stills and the strip are whole once the clips are ready for quick stepping; sharp ones follow. */
  async function everyPictureIsThere(): Promise<void> {
    await window.getByText(/^Clip \d+ % ready/).waitFor({ state: 'detached', timeout: 180_000 });
    await window.waitForTimeout(4000);
  }
}
