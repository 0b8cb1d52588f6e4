import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { temporaryFolder } from '../../support/temporary-folder.ts';

/**
 * A real disk that is really full: 2 MB of memory, mounted where only the child sees it, so that nothing stays mounted
 * whatever happens. An ordinary user gets the right to mount from a user namespace of the child's own.
 */
function onSmallDisk(script: string, disk: string, argument: string): string {
  const namespaces = process.getuid?.() === 0 ? ['--mount'] : ['--user', '--map-root-user', '--mount'];
  const mountAndRun = 'mount -t tmpfs -o size=2m small "$1" && exec "$2" "$3" "$1" "$4"';
  const args = [...namespaces, 'sh', '-c', mountAndRun, 'sh', disk, process.execPath, script, argument];
  return execFileSync('unshare', args, { encoding: 'utf8' });
}

test('a full disk is said to be full, loses nothing that was stored, and is got over when there is room', () => {
  const folder = temporaryFolder();
  const disk = join(folder, 'disk');
  mkdirSync(disk);
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
