import { openBook } from '../../../../core/book/open-book.ts';

/** Removes a student and is killed right after that is stored, before anything of it is cleared. */
const [folder = '', studentId = ''] = process.argv.slice(2);
const book = openBook(folder);
book.database.writeAnew = () => {
  process.kill(process.pid, 'SIGKILL');
  return false;
};
book.removeStudent(studentId);
