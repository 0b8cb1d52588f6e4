import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openBook } from '../../../../core/book/open-book.ts';
import { storeClipFile } from '../../../../core/book/media.ts';
import { AppError } from '../../../../core/model/errors.ts';
import { writeWholeFile } from '../../../../core/files/write-whole-file.ts';

/**
 * Runs on a disk of 2 MB mounted at `process.argv[2]`, with a clip of 3 MB at `process.argv[3]`, and prints one JSON
 * value that tells what happened when the disk was full.
 */
const [, , disk = '', clip = ''] = process.argv;
const said = async (work: () => unknown): Promise<string> => {
  try {
    await work();
    return 'done';
  } catch (error) {
    return error instanceof AppError ? `${error.code}: ${error.message}` : String(error);
  }
};

const folder = join(disk, 'book');
let book = openBook(folder);
const student = () => book.addStudent({ firstName: 'Robin', lastName: 'x'.repeat(80), handedness: 'right' });
student();
const copying = await said(() => storeClipFile(book, clip, { how: 'copied' }));
const mediaAfterCopy = readdirSync(join(folder, 'media'));

mkdirSync(join(disk, 'fill'));
const fill = async (bytes: number): Promise<void> => {
  for (let count = 0; ; count += 1)
    try {
      writeFileSync(join(disk, 'fill', `${String(bytes)}-${String(count)}`), Buffer.alloc(bytes));
    } catch {
      return;
    }
};
await fill(65536);
await fill(4096);

let stored = 1;
let saving = 'done';
while (saving === 'done') {
  saving = await said(student);
  if (saving === 'done') stored += 1;
}
const listedWhileFull = book.listStudents().length;
const writing = await said(() => writeWholeFile(join(disk, 'stills.json'), 'x'.repeat(100_000)));
const opening = await said(() => openBook(join(disk, 'second')));
const leftOnDisk = readdirSync(disk).filter((name) => name.endsWith('.part') || name === 'stills.json');

rmSync(join(disk, 'fill'), { recursive: true });
const savingAgain = await said(student);
book.close();
book = openBook(folder);
const listedAfterwards = book.listStudents().length;
book.close();
console.log(
  JSON.stringify({
    ...{ copying, mediaAfterCopy, saving, missing: stored - listedWhileFull, writing, opening, leftOnDisk },
    ...{ savingAgain, missingAfterwards: stored + 1 - listedAfterwards },
  }),
);
