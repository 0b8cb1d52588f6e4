import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openBook } from '../../../../core/book/open-book.ts';
import { AppError } from '../../../../core/model/errors.ts';

/**
 * Runs on a small disk mounted at `process.argv[2]`: the file of an open book is deleted, and the disk is full when it is to
 * be put back. Prints one JSON value that tells what became of it, then and once there was room again.
 */
const [, , disk = ''] = process.argv;
const folder = join(disk, 'book');
const book = openBook(folder);
const student = (): string => {
  try {
    book.addStudent({ firstName: 'Robin', lastName: 'x'.repeat(80), handedness: 'right' });
    return 'done';
  } catch (error) {
    return error instanceof AppError ? error.code : String(error);
  }
};
book.database.write(() => {
  for (let count = 0; count < 2000; count += 1) student();
});

rmSync(join(folder, 'book.sqlite'));
mkdirSync(join(disk, 'fill'));
for (const bytes of [65536, 4096])
  for (let count = 0; ; count += 1)
    try {
      writeFileSync(join(disk, 'fill', `${String(bytes)}-${String(count)}`), Buffer.alloc(bytes));
    } catch {
      break;
    }
// Room for a beginning of the book, and not for all of it.
for (let count = 0; count < 8; count += 1) rmSync(join(disk, 'fill', `4096-${String(count)}`), { force: true });
rmSync(join(disk, 'fill', '65536-0'), { force: true });
const whileFull = student();
const left = readdirSync(folder).filter((name) => name.includes('kept'));

rmSync(join(disk, 'fill'), { recursive: true });
const afterwards = student();
book.close();
const again = openBook(folder);
const listed = again.listStudents().length;
again.close();
console.log(JSON.stringify({ whileFull, left, afterwards, listed }));
