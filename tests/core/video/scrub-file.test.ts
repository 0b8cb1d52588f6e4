import { existsSync, mkdirSync, readFileSync, readdirSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { EMPTY_TABLE, tableText } from '../../../core/video/scrub-table.ts';
import { ScrubFile } from '../../../core/video/scrub-file.ts';
import { seeded } from '../../support/seeded.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { expectRefused } from '../../support/trouble.ts';

const SHA = 'f'.repeat(64);
const TITLE = 'a copy of this test';
const dataFile = (folder: string): string => join(folder, `${SHA}.scrub`);
const tableFile = (folder: string): string => join(folder, `${SHA}.frames`);

/** The picture at a time, of 1 to 4,000 bytes that follow from the time alone. */
function picture(pts: number): Uint8Array {
  const random = seeded(pts);
  return Uint8Array.from({ length: 1 + Math.floor(random() * 4000) }, () => Math.floor(random() * 256));
}

const times = (count: number): number[] => Array.from({ length: count }, (_, place) => place * 7 - 20);

function add(file: ScrubFile, all: readonly number[]): void {
  for (const pts of all) file.add({ pts, data: picture(pts) });
}

async function opened(folder: string, title = TITLE): Promise<ScrubFile> {
  const file = new ScrubFile(folder, SHA, title);
  await file.load();
  return file;
}

async function store(folder: string, count: number, errors: boolean | null): Promise<void> {
  const file = await opened(folder);
  await file.beginWriting();
  add(file, times(count));
  await file.flush(false);
  if (errors !== null) await file.complete(errors);
  await file.endWriting();
  await file.close();
}

/** Times whose picture comes back, after a check that it is the right one. */
async function readable(file: ScrubFile, all: readonly number[]): Promise<number[]> {
  const found: number[] = [];
  for (const pts of all) {
    const data = await file.read(pts);
    if (data === null) continue;
    expect(Buffer.compare(data, picture(pts)), `picture ${pts}`).toBe(0);
    found.push(pts);
  }
  return found;
}

describe('a scrub copy on disk', () => {
  it('shows each picture from the moment it is added, from memory or from disk', async () => {
    const folder = temporaryFolder();
    const file = await opened(folder);
    expect([file.count, file.bytes, file.result, file.lastPts]).toEqual([0, 0, null, null]);
    expect(existsSync(tableFile(folder))).toBe(false);
    await file.beginWriting();
    const all = times(40);
    for (const [place, pts] of all.entries()) {
      expect(file.has(pts)).toBe(false);
      expect(await file.read(pts)).toBe(null);
      add(file, [pts]);
      if (place % 7 === 6) await file.flush(false);
      expect(await readable(file, all)).toEqual(all.slice(0, place + 1));
    }
    await file.flush(false);
    expect([file.count, file.lastPts, file.result]).toEqual([40, all.at(-1), null]);
    await file.complete(false);
    expect(file.result).toEqual({ delivered: all, errors: false });
    await file.endWriting();
    expect(await readable(file, all)).toEqual(all);
    expect(file.bytes).toBe(statSync(dataFile(folder)).size);
    await file.close();
    expect(await file.read(0)).toBe(null);
  });

  it('gives each reader memory of its own', async () => {
    const folder = temporaryFolder();
    const file = await opened(folder);
    await file.beginWriting();
    add(file, [5]);
    for (const flush of [false, true]) {
      if (flush) await file.flush(false);
      (await file.read(5))?.fill(0);
      expect(await readable(file, [5])).toEqual([5]);
    }
    await file.endWriting();
    await file.close();
  });

  it('says when it is time to write', async () => {
    const file = await opened(temporaryFolder());
    await file.beginWriting();
    expect(file.batch.full).toBe(false);
    file.add({ pts: 0, data: new Uint8Array(1024 * 1024) });
    expect(file.batch.full).toBe(true);
    await file.flush(false);
    expect(file.batch.full).toBe(false);
    add(file, times(40).slice(4, 4 + 32));
    expect(file.batch.full).toBe(true);
    await file.endWriting();
    await file.close();
  });

  it('is read while another one writes it', async () => {
    const folder = temporaryFolder();
    const [writer, all] = [await opened(folder), times(30)];
    await writer.beginWriting();
    for (let done = 0; done < 30; done += 10) {
      add(writer, all.slice(done, done + 10));
      await writer.flush(false);
      const reader = await opened(folder);
      expect(await readable(reader, all)).toEqual(all.slice(0, done + 10));
      expect(reader.result).toBe(null);
      await reader.close();
    }
    await writer.complete(true);
    const reader = await opened(folder);
    expect(reader.result).toEqual({ delivered: all, errors: true });
    await Promise.all([reader.close(), writer.endWriting()]);
    await writer.close();
  });

  it('forgets what did not reach the disk, and goes on from there', async () => {
    const folder = temporaryFolder();
    const [file, all] = [await opened(folder), times(20)];
    await file.beginWriting();
    add(file, all.slice(0, 8));
    await file.flush(true);
    add(file, all.slice(8, 12));
    await file.endWriting();
    expect(await readable(file, all)).toEqual(all.slice(0, 8));
    await file.beginWriting();
    expect([file.lastPts, file.complained]).toEqual([all[7], true]);
    add(file, all.slice(8));
    await file.flush(true);
    await file.complete(true);
    await file.endWriting();
    await file.close();
    const again = await opened(folder);
    expect(again.result).toEqual({ delivered: all, errors: true });
    expect(await readable(again, all)).toEqual(all);
    await again.close();
  });

  it('takes no picture out of order', async () => {
    const file = await opened(temporaryFolder());
    await file.beginWriting();
    add(file, [3]);
    expect(() => {
      add(file, [3]);
    }).toThrow('3 does not follow 3');
    await file.endWriting();
    await file.close();
  });

  it('of another make is as good as none, and is replaced', async () => {
    const folder = temporaryFolder();
    await store(folder, 9, false);
    const before = readFileSync(tableFile(folder));
    const other = await opened(folder, 'made otherwise');
    expect([other.count, other.result]).toEqual([0, null]);
    expect(readFileSync(tableFile(folder))).toEqual(before);
    await other.beginWriting();
    add(other, [1]);
    await other.flush(false);
    await other.endWriting();
    expect(await readable(other, times(9))).toEqual([1]);
    await other.close();
    expect((await opened(folder)).count).toBe(0);
  });

  it('goes on being read by those who have it open when it is begun anew', async () => {
    const folder = temporaryFolder();
    await store(folder, 9, false);
    const reader = await opened(folder);
    const writer = await opened(folder, 'made otherwise');
    await writer.beginWriting();
    expect(await readable(reader, times(9))).toEqual(times(9));
    await writer.endWriting();
    await Promise.all([reader.close(), writer.close()]);
  });

  it('ends reads under way before it closes', async () => {
    const folder = temporaryFolder();
    await store(folder, 200, false);
    const file = await opened(folder);
    const reads = times(200).map((pts) => file.read(pts));
    await file.close();
    for (const [place, data] of (await Promise.all(reads)).entries())
      if (data !== null) expect(Buffer.from(data)).toEqual(Buffer.from(picture(times(200)[place] ?? 0)));
  });

  it('counts as used when it is opened', async () => {
    const folder = temporaryFolder();
    await store(folder, 1, false);
    const old = new Date(Date.now() - 1e9);
    utimesSync(tableFile(folder), old, old);
    await (await opened(folder)).close();
    expect(statSync(tableFile(folder)).mtimeMs).toBeGreaterThan(Date.now() - 60_000);
  });

  it('that cannot be written says so', async () => {
    const folder = temporaryFolder();
    // Folders where the files should be: nobody may write those, not even a superuser.
    for (const path of [dataFile(folder), tableFile(folder)]) {
      mkdirSync(join(path, 'x'), { recursive: true });
      const file = await opened(folder);
      expect(file.count).toBe(0);
      await expectRefused(file.beginWriting(), 'not-writable');
      await file.endWriting();
      await file.close();
      rmSync(path, { recursive: true });
    }
  });
});

describe('a scrub copy that was damaged', () => {
  it('keeps to itself a picture that is not what was written, and is made anew', async () => {
    const folder = temporaryFolder();
    await store(folder, 10, false);
    const data = readFileSync(dataFile(folder));
    data.writeUInt8((data.at(-1) ?? 0) ^ 1, data.length - 1);
    writeFileSync(dataFile(folder), data);
    const [file, all] = [await opened(folder), times(10)];
    expect(file.result).not.toBe(null);
    expect(await readable(file, all)).toEqual(all.slice(0, 9));
    expect([file.result, file.count, file.has(all[9] ?? 0)]).toEqual([null, 9, false]);
    // Also for the next run of the program.
    expect((await opened(folder)).count).toBe(0);
    // What holds goes on being shown until then.
    expect(await readable(file, all)).toEqual(all.slice(0, 9));
    await file.beginWriting();
    expect([file.count, file.lastPts]).toEqual([0, null]);
    add(file, all);
    await file.flush(false);
    await file.complete(false);
    await file.endWriting();
    expect(file.result).toEqual({ delivered: all, errors: false });
    expect(await readable(file, all)).toEqual(all);
    await file.close();
  });

  it('is found to be so while it is written, and does not pass for whole afterwards', async () => {
    const folder = temporaryFolder();
    const [file, all] = [await opened(folder), times(10)];
    await file.beginWriting();
    add(file, all);
    await file.flush(false);
    const data = readFileSync(dataFile(folder));
    writeFileSync(dataFile(folder), data.fill(0, 0, 1).fill(1, 0, 1));
    expect(await readable(file, all.slice(0, 1))).toEqual([]);
    await file.complete(false);
    await file.endWriting();
    expect(file.result).toBe(null);
    await file.close();
    expect((await opened(folder)).count).toBe(0);
  });

  it.each([11, 12, 13, 14])('gives right pictures or none, and can always be finished (seed %i)', async (seed) => {
    const random = seeded(seed);
    for (let round = 0; round < 40; round += 1) {
      const folder = temporaryFolder();
      const all = times(3 + Math.floor(random() * 20));
      await store(folder, all.length, random() < 0.5 ? false : null);
      for (const path of [dataFile(folder), tableFile(folder)]) {
        let bytes = readFileSync(path);
        const [kind, at] = [random(), Math.floor(random() * bytes.length)];
        if (kind < 0.3) bytes = bytes.subarray(0, at);
        else if (kind < 0.6) bytes.writeUInt8((bytes.at(at) ?? 0) ^ (1 + Math.floor(random() * 255)), at);
        else if (kind < 0.7) bytes = Buffer.concat([bytes, Buffer.from('12 5 0badcafe 0badcafe\n7')]);
        else if (kind < 0.75) {
          rmSync(path);
          continue;
        }
        writeFileSync(path, bytes);
      }
      const file = await opened(folder);
      await readable(file, all);
      await file.beginWriting();
      const from = file.lastPts;
      if (file.result === null) {
        add(
          file,
          all.filter((pts) => from === null || pts > from),
        );
        await file.flush(false);
        await file.complete(false);
      }
      await file.endWriting();
      // A byte that was changed where nothing was read shows when it is read.
      const found = await readable(file, all);
      expect(file.result === null, `seed ${seed}, round ${round}`).toBe(found.length < all.length);
      await file.close();
    }
  });

  it('whose list was cut off at once is begun anew', async () => {
    for (const text of ['', 'a copy', tableText(EMPTY_TABLE, [TITLE]).text]) {
      const folder = temporaryFolder();
      await store(folder, 5, false);
      writeFileSync(tableFile(folder), text);
      const file = await opened(folder);
      expect(file.count).toBe(0);
      await file.beginWriting();
      expect(statSync(dataFile(folder)).size).toBe(0);
      await file.endWriting();
      await file.close();
      expect(readdirSync(folder).sort()).toEqual([`${SHA}.frames`, `${SHA}.scrub`]);
    }
  });
});
