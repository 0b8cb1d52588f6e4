import { openBook } from '../../../core/book/open-book.ts';
import { addPart, keepPart } from '../../../core/jobs/keep-part.ts';
import { UNWATCHED } from '../../../core/jobs/job-context.ts';
import { findFfmpeg } from '../../../core/video/process/find-ffmpeg.ts';
import { addSample } from '../../core/book/sample.ts';

/**
 * Adds frames 120 to 199 of the clip `process.argv[3]` to a new book in `process.argv[2]`. Names the one that shows picture
 * 150, prints the clip's id, and takes the part until it is killed as it says `process.argv[4]`.
 */
const [, , folder = '', path = '', at = ''] = process.argv;
const ffmpeg = await findFfmpeg();
const book = openBook(folder);
const { swing } = addSample(book);
const order = { swingId: swing.id, path, view: 'face-on', span: { from: 120, to: 199 } } as const;
const { id, kept } = await addPart(book, order, ffmpeg, UNWATCHED);
const index = 150 - (kept?.first ?? 0);
book.setCheckpoint(id, 'top', { index, pts: book.clipIndex(id).frames[index]?.pts ?? -1 });
process.stdout.write(`${id}\n`);
const report = (label: string): void => {
  if (label === at) process.kill(process.pid, 'SIGKILL');
};
await keepPart(book, { id, first: kept?.first ?? 0 }, ffmpeg, { ...UNWATCHED, report });
