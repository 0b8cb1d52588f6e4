import { mkdirSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { makeBookWithBall, takeBall } from '../closing-session.ts';
import { launchBaybook } from '../launch.ts';
import { ask } from '../page-hands.ts';

/**
 * Runs on a small disk mounted at `process.argv[2]`, which holds the book, with room for settings under `process.argv[3]`.
 * Records until the disk is full, makes room and records on. Prints what was said and what was kept, as JSON.
 */
const [, , disk = '', other = ''] = process.argv;
const [bookFolder, userData] = [join(disk, 'book'), join(other, 'settings')];
mkdirSync(userData, { recursive: true });
await makeBookWithBall(bookFolder);

/** Bytes of sound in two seconds, and a little for the log. */
const ROOM = 2 * 96_000 + 20_000;
const filling = join(disk, 'fill');
const baybook = await launchBaybook({
  ...{ bookFolder, userData },
  chromium: ['--use-fake-device-for-media-stream'],
});
try {
  const { window: page } = baybook;
  await takeBall(baybook);
  const [student] = await ask(page, 'student/list', null);
  const swingId = student?.lessons[0]?.swings[0]?.swing.id ?? '';
  await page.getByRole('button', { name: 'Record a talk-through' }).click();
  await page.getByText('Recording', { exact: true }).waitFor();
  const { bavail, bsize } = statfsSync(disk);
  writeFileSync(filling, Buffer.alloc(bavail * bsize - ROOM));
  const alert = page.getByRole('alert').filter({ hasText: 'The disk is full' });
  await alert.waitFor();
  const said = (await alert.locator('p').innerText()).replaceAll(disk, 'DISK');
  await page.getByRole('button', { name: 'Record a talk-through' }).waitFor();
  const first = await ask(page, 'talk/read', { swingId });
  rmSync(filling);
  await alert.getByRole('button', { name: 'Close' }).click();
  await page.getByRole('button', { name: 'Record a talk-through' }).click();
  await page.getByLabel('Recorded so far: 0:01').waitFor();
  await page.getByRole('button', { name: 'Stop recording' }).click();
  await page.getByRole('button', { name: 'Save video' }).waitFor();
  const second = await ask(page, 'talk/read', { swingId });
  const { talkEdits } = await ask(page, 'swing/open', { id: swingId });
  process.stdout.write(
    JSON.stringify({
      said,
      first: first?.takes.map((take) => ({ length: take?.length, sound: take?.sound !== null })),
      kept: second?.takes[0]?.length,
      on: (second?.takes[1]?.length ?? 0) > 500,
      edits: talkEdits,
    }),
  );
} finally {
  await baybook.close();
}
