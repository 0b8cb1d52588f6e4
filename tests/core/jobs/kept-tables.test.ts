import { chmodSync, mkdirSync, readFileSync, readdirSync, truncateSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { KeptTables } from '../../../core/jobs/kept-tables.ts';
import { sampleIndex } from '../book/sample.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';

const key = (n: number): string => n.toString(16).padStart(64, '0');
const fileOf = (folder: string, n: number): string => join(folder, `${key(n)}.table`);

describe('a table', () => {
  it('comes back as it was kept, and only under its key', async () => {
    const tables = new KeptTables(join(temporaryFolder(), 'new', 'tables'));
    expect(await tables.read(key(1))).toBeNull();
    await tables.keep(key(1), sampleIndex(500));
    expect(await tables.read(key(1))).toEqual(sampleIndex(500));
    expect(await tables.read(key(2))).toBeNull();
  });

  it('of which any byte is changed, or which is cut short, is as if it were not there', async () => {
    const folder = temporaryFolder();
    const tables = new KeptTables(folder);
    await tables.keep(key(1), sampleIndex(20));
    const whole = readFileSync(fileOf(folder, 1));
    for (let place = 0; place < whole.length; place += 7) {
      const bytes = Buffer.from(whole);
      bytes[place] = (bytes[place] ?? 0) ^ 1;
      writeFileSync(fileOf(folder, 1), bytes);
      expect(await tables.read(key(1)), `byte ${String(place)}`).toBeNull();
    }
    writeFileSync(fileOf(folder, 1), whole);
    for (const length of [0, 10, 64, 65, whole.length - 1]) {
      truncateSync(fileOf(folder, 1), length);
      expect(await tables.read(key(1)), `cut to ${String(length)}`).toBeNull();
      writeFileSync(fileOf(folder, 1), whole);
    }
    expect(await tables.read(key(1))).toEqual(sampleIndex(20));
  });

  it('is bounded in number, in bytes, and by itself; those used last stay', async () => {
    const folder = temporaryFolder();
    const few = new KeptTables(folder, { count: 3, bytes: 1e6 });
    for (const n of [1, 2, 3]) {
      await few.keep(key(n), sampleIndex());
      utimesSync(fileOf(folder, n), n, n);
    }
    await few.read(key(1));
    await few.keep(key(4), sampleIndex());
    expect(readdirSync(folder).sort()).toEqual([1, 3, 4].map((n) => `${key(n)}.table`));

    const bytes = readFileSync(fileOf(folder, 4)).length;
    await new KeptTables(folder, { count: 100, bytes: bytes * 8 }).keep(key(5), sampleIndex(500));
    expect(readdirSync(folder)).not.toContain(`${key(5)}.table`);
    utimesSync(fileOf(folder, 3), 3, 3);
    await new KeptTables(folder, { count: 100, bytes: bytes * 4 }).keep(key(6), sampleIndex());
    await new KeptTables(folder, { count: 100, bytes: bytes * 4 }).keep(key(7), sampleIndex());
    expect(readdirSync(folder)).not.toContain(`${key(3)}.table`);
    expect(readdirSync(folder)).toHaveLength(4);
  });

  it('that cannot be kept is no trouble: a folder that is a file, or may not be written', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'file'), '');
    const inFile = new KeptTables(join(folder, 'file', 'tables'));
    await inFile.keep(key(1), sampleIndex());
    expect(await inFile.read(key(1))).toBeNull();
    expect(readdirSync(folder)).toEqual(['file']);
    // A folder where the table should be stops its writing also for a user who may write everywhere.
    mkdirSync(fileOf(folder, 2));
    chmodSync(folder, 0o500);
    const closed = new KeptTables(folder);
    await closed.keep(key(2), sampleIndex());
    expect(await closed.read(key(2))).toBeNull();
    chmodSync(folder, 0o700);
    expect(readdirSync(folder).sort()).toEqual([`${key(2)}.table`, 'file'].sort());
  });

  it('is whole also while several write it', async () => {
    const tables = new KeptTables(temporaryFolder());
    const read: unknown[] = [];
    await Promise.all(
      Array.from({ length: 20 }, async () => {
        await tables.keep(key(1), sampleIndex(200));
        read.push(await tables.read(key(1)));
      }),
    );
    expect(read).toEqual(Array.from({ length: 20 }, () => sampleIndex(200)));
  });
});
