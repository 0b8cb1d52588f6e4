import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import * as v from 'valibot';
import { clipPath } from '../../../core/book/media.ts';
import type { Book } from '../../../core/book/open-book.ts';
import { seeded } from '../../support/seeded.ts';
import { killAtRandom } from './children/kill-at-random.ts';
import { addSample, addSampleClip, sampleIndex } from './sample.ts';
import { lasting, sized } from '../../support/sized.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { newBook, reopen } from './with-book.ts';

const SEED = 52;
const MARK_ROUNDS = sized(4, 15);
const IMPORT_ROUNDS = sized(4, 10);
const OPEN_ROUNDS = sized(3, 10);
const childAt = (name: string): string => join(import.meta.dirname, 'children', name);
const integrity = (book: Book): unknown =>
  book.database.all(v.unknown(), 'SELECT integrity_check AS state FROM pragma_integrity_check');

test(
  `marks stored before a kill -9 are all there after it (seed ${String(SEED)})`,
  { timeout: lasting(40_000) },
  async () => {
    const random = seeded(SEED);
    let book = newBook();
    const clip = await addSampleClip(book, addSample(book).swing.id);
    const newest = new Map<number, number>();
    let next = 0;
    for (let kill = 0; kill < MARK_ROUNDS; kill += 1) {
      book.close();
      const args = [book.folder, clip.id, String(next)];
      const { lines, signal, stderr } = await killAtRandom(childAt('save-marks.ts'), args, random() * 60);
      expect({ signal, stderr, some: lines.length > 0 }).toEqual({ signal: 'SIGKILL', stderr: '', some: true });
      const acknowledged = Number(lines.at(-1));
      for (const line of lines) newest.set(Number(line) % 5, Number(line));

      book = reopen(book.folder);
      expect(integrity(book)).toEqual([{ state: 'ok' }]);
      for (const marks of book.readMarks(clip.id)) {
        // One round may have been stored whole and not been printed any more; nothing else may differ.
        const found = marks.points.clubhead?.x ?? NaN;
        if (found !== acknowledged + 1) expect(found).toBe(newest.get(marks.frame.index));
        newest.set(marks.frame.index, found);
        expect(marks.points.ball).toEqual({ x: found + 1e-9, y: 1 - found, hidden: false });
        expect(marks.shapes.map((shape) => (shape.kind === 'circle' ? shape.radius : shape.kind))).toEqual([
          found,
          'box',
        ]);
      }
      expect(book.readMarks(clip.id)).toHaveLength(newest.size);
      next = Math.max(...newest.values()) + 1;
    }
  },
);

test(
  `a kill -9 while importing leaves whole clips and no half ones (seed ${String(SEED)})`,
  // Each program that is killed starts another one, which looks at files for it.
  { timeout: lasting(80_000) },
  async () => {
    const random = seeded(SEED + 1);
    let book = newBook();
    const { lesson } = addSample(book);
    const added = new Set<string>();
    const removed = new Set<string>();
    for (let kill = 0; kill < IMPORT_ROUNDS; kill += 1) {
      book.close();
      const args = [book.folder, lesson.id, String(kill)];
      const { lines, signal, stderr } = await killAtRandom(childAt('import-clips.ts'), args, random() * 150);
      expect({ signal, stderr }).toEqual({ signal: 'SIGKILL', stderr: '' });
      for (const line of lines) (line.startsWith('+') ? added : removed).add(line.slice(2));

      book = reopen(book.folder);
      expect(integrity(book)).toEqual([{ state: 'ok' }]);
      const swings = book.listStudents().flatMap(({ lessons }) => lessons.flatMap((entry) => entry.swings));
      const present = new Set(swings.flatMap(({ clips }) => clips.map(({ id }) => id)));
      for (const id of removed) expect(present.has(id)).toBe(false);
      // A removal may have been stored and not been printed any more: only the very last one added may be gone.
      const last = [...added].at(-1);
      if (last !== undefined && !present.has(last)) removed.add(last);
      for (const id of added) if (!removed.has(id)) expect(present.has(id)).toBe(true);

      const files = readdirSync(join(book.folder, 'media'));
      for (const name of files) {
        const bytes = readFileSync(join(book.folder, 'media', name));
        expect(name).toBe(`${createHash('sha256').update(bytes).digest('hex')}.mp4`);
      }
      for (const id of present) {
        expect(files.map((name) => join(book.folder, 'media', name))).toContain(await clipPath(book, id));
        expect(book.clipIndex(id)).toEqual(sampleIndex(2400));
      }
    }
    expect(added.size).toBeGreaterThan(IMPORT_ROUNDS / 2);
  },
);

test(
  `a kill -9 while a book is being made leaves a folder that opens (seed ${String(SEED)})`,
  // Each program that is killed starts another one, which looks at files for it.
  { timeout: lasting(80_000) },
  async () => {
    const random = seeded(SEED + 2);
    for (let kill = 0; kill < OPEN_ROUNDS; kill += 1) {
      const folder = join(temporaryFolder(), 'book');
      await killAtRandom(childAt('open-once.ts'), [folder], 40 + random() * 120, 'start');
      const book = reopen(folder);
      expect(integrity(book)).toEqual([{ state: 'ok' }]);
      expect(book.listStudents()).toEqual([]);
    }
  },
);
