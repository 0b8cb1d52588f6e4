import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { onSmallDisk } from '../../support/small-disk.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';

test('a full disk is said to be full, loses nothing that was stored, and is got over when there is room', () => {
  const folder = temporaryFolder();
  const disk = join(folder, 'disk');
  const clip = join(folder, 'swing.mp4');
  writeFileSync(clip, Buffer.alloc(3_000_000, 'golf'));
  const told: unknown = JSON.parse(onSmallDisk(join(import.meta.dirname, 'children', 'fill-disk.ts'), disk, clip));
  expect(told).toEqual({
    copying: expect.stringMatching(/^disk-full: The disk is full: .*swing\.mp4 was not written\. Make room/),
    mediaAfterCopy: [],
    saving: expect.stringMatching(/^disk-full: The disk is full: the last change was not saved in .*book\.sqlite/),
    missing: 0,
    writing: expect.stringMatching(/^disk-full: .*stills\.json/),
    opening: expect.stringMatching(/^disk-full: /),
    leftOnDisk: [],
    savingAgain: 'done',
    missingAfterwards: 0,
  });
});

test('a book whose file was removed is put back whole or not at all: a full disk leaves no part of it to be taken for it', () => {
  const disk = join(temporaryFolder(), 'disk');
  const told: unknown = JSON.parse(onSmallDisk(join(import.meta.dirname, 'children', 'removed-on-full-disk.ts'), disk));
  expect(told).toEqual({ whileFull: 'disk-full', left: [], afterwards: 'done', listed: 2001 });
});
