import { existsSync, mkdirSync, readFileSync, rmSync, statSync, utimesSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { add, dataFile, opened, picture, readable, store, tableFile, times } from '../../../support/made-up-copy.ts';
import { temporaryFolder } from '../../../support/temporary-folder.ts';
import { expectRefused } from '../../../support/trouble.ts';

describe('a proxy on disk', () => {
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

  it('takes pictures in any order, and none twice', async () => {
    const file = await opened(temporaryFolder());
    await file.beginWriting();
    add(file, [30, 3, 10]);
    expect(() => {
      add(file, [3]);
    }).toThrow('there is a picture at 3');
    await file.flush(false);
    await file.complete(false);
    expect([file.lastPts, file.result]).toEqual([30, { delivered: [3, 10, 30], errors: false }]);
    expect(await readable(file, [3, 10, 30])).toEqual([3, 10, 30]);
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
