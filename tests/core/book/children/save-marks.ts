import { openBook } from '../../../../core/book/open-book.ts';

/**
 * Saves marks on the clip `process.argv[3]` of the book `process.argv[2]` until it is killed. Round n goes to frame
 * n mod 5 and carries n in every number. "n" is printed when round n has been stored, and not before.
 */
const [, , folder = '', clipId = '', firstRound = '0'] = process.argv;
const book = openBook(folder);
const frames = book.clipIndex(clipId).frames;
for (let round = Number(firstRound); ; round += 1) {
  const index = round % frames.length;
  const pts = frames[index]?.pts ?? 0;
  book.saveMarks(clipId, {
    frame: { index, pts },
    points: {
      ball: { x: round + 1e-9, y: 1 - round, hidden: false },
      clubhead: { x: round, y: round / 3, hidden: true },
    },
    shapes: [
      { id: crypto.randomUUID(), kind: 'circle', centre: { x: round, y: round }, radius: round },
      { id: crypto.randomUUID(), kind: 'box', x: round, y: round, width: round, height: round, role: null },
    ],
  });
  process.stdout.write(`${String(round)}\n`);
}
