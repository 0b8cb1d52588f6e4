import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openBook } from '../../../../core/book/open-book.ts';
import { storeClipFile } from '../../../../core/book/media.ts';
import { sampleIndex } from '../sample.ts';

/**
 * Imports clips into lesson `process.argv[3]` of the book `process.argv[2]`, removing every third one again, until it
 * is killed. "+ id" and "- id" are printed when that has been stored.
 */
const [, , folder = '', lessonId = '', round = '0'] = process.argv;
const book = openBook(folder);
for (let turn = 0; ; turn += 1) {
  const source = join(folder, '..', 'source.mp4');
  writeFileSync(source, Buffer.alloc(3_000_000, `clip ${round} ${String(turn)} `));
  const file = await storeClipFile(book, source, { how: 'copied' });
  const swing = book.addSwing({ lessonId, label: `Swing ${round} ${String(turn)}` });
  const swingId = swing.id;
  const clip = book.addClip({ swingId, view: 'face-on', originalName: 'source.mp4', file, index: sampleIndex(2400) });
  process.stdout.write(`+ ${clip.id}\n`);
  if (turn % 3 !== 2) continue;
  book.removeSwing(swingId);
  process.stdout.write(`- ${clip.id}\n`);
}
