import { existsSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { takeProxyLock } from '../../../../core/video/proxy/proxy-lock.ts';
import { EMPTY_TABLE, tableText } from '../../../../core/video/proxy/proxy-table.ts';
import { SHA, TITLE, add, dataFile, opened, readable, store, tableFile, times } from '../../../support/made-up-copy.ts';
import { seeded } from '../../../support/seeded.ts';
import { temporaryFolder } from '../../../support/temporary-folder.ts';

describe('a proxy that was damaged', () => {
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
    const lock = await takeProxyLock(join(folder, `${SHA}.lock`));
    await file.beginWriting();
    add(file, all);
    await file.flush(false);
    const data = readFileSync(dataFile(folder));
    writeFileSync(dataFile(folder), data.fill(0, 0, 1).fill(1, 0, 1));
    expect(await readable(file, all.slice(0, 1))).toEqual([]);
    await file.complete(false);
    expect(existsSync(tableFile(folder))).toBe(true);
    await file.endWriting();
    await lock?.release();
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
