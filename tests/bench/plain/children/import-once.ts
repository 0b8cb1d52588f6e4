import { openBook } from '../../../../core/book/open-book.ts';
import { importClip } from '../../../../core/jobs/import-clip.ts';
import { inspectClip } from '../../../../core/jobs/inspect-clip.ts';
import { findFfmpeg } from '../../../../core/video/process/find-ffmpeg.ts';

/** Entry of a process that looks at a clip and brings it into a new book, as the window has it done: its path, the book's folder. */
const [path = '', folder = ''] = process.argv.slice(2);
const ffmpeg = await findFfmpeg();
await inspectClip(path, ffmpeg);
const book = openBook(folder);
const { id: studentId } = book.addStudent({ firstName: 'Bench', lastName: 'Test', handedness: 'right' });
const { id: lessonId } = book.addLesson({
  studentId,
  date: '2026-05-12',
  club: '7 iron',
  handedness: 'right',
  note: '',
});
const { id: swingId } = book.addSwing({ lessonId, label: 'Swing 1' });
const run = { signal: new AbortController().signal, report: () => undefined };
await importClip(book, { swingId, view: 'face-on', path, stored: 'copied' }, ffmpeg, run);
book.close();
process.exit(0);
