import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { openBook } from '../../../core/book/open-book.ts';
import { addPart, keepPart } from '../../../core/jobs/keep-part.ts';
import { UNWATCHED } from '../../../core/jobs/job-context.ts';
import { AppError } from '../../../core/model/errors.ts';
import { findFfmpeg } from '../../../core/video/process/find-ffmpeg.ts';
import { addSample } from '../../core/book/sample.ts';

/**
 * Adds all frames but the last of the clip `process.argv[3]` as a part to a book on the disk at `process.argv[2]`, names
 * one, and takes the part; prints what was said and what the book holds then.
 */
const [, , disk = '', path = ''] = process.argv;
const ffmpeg = await findFfmpeg();
const book = openBook(join(disk, 'book'));
const { swing } = addSample(book);
const order = { swingId: swing.id, path, view: 'face-on', span: { from: 0, to: 38 } } as const;
const { id } = await addPart(book, order, ffmpeg, UNWATCHED);
book.setCheckpoint(id, 'top', { index: 7, pts: book.clipIndex(id).frames[7]?.pts ?? -1 });
const said = await keepPart(book, { id, first: 0 }, ffmpeg, UNWATCHED).then(
  () => 'done',
  (error: unknown) => (error instanceof AppError ? `${error.code}: ${error.message}` : String(error)),
);
const [clip] = book.openSwing(swing.id).clips;
const left = readdirSync(join(disk, 'book', 'media'));
console.log(JSON.stringify({ said, coming: clip?.coming, top: clip?.checkpoints.top?.index, left }));
