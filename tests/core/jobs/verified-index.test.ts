import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, test, vi } from 'vitest';
import { readVerifiedIndex } from '../../../core/jobs/verified-index.ts';
import { findFfmpeg } from '../../../core/video/process/find-ffmpeg.ts';
import { heldFile, noFiles } from '../../support/held-file.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { expectRefused } from '../../support/trouble.ts';

afterEach(() => {
  vi.unstubAllEnvs();
});

test('where tables are kept, what is no file and what never opens is still told and not waited for', async () => {
  vi.stubEnv('BAYBOOK_CACHE', temporaryFolder());
  const ffmpeg = await findFfmpeg();
  const { pipe, device } = await noFiles();
  await expectRefused(readVerifiedIndex(pipe, { ffmpeg }), 'file-unreadable', /is a pipe between programs/);
  await expectRefused(readVerifiedIndex(device, { ffmpeg }), 'file-unreadable', /is a device/);
  const path = join(temporaryFolder(), 'swing.mp4');
  writeFileSync(path, 'a clip');
  const held = await heldFile(path, 'held.mp4');
  await expectRefused(readVerifiedIndex(held, { ffmpeg }), 'file-unreadable', /does not answer/);
}, 30_000);
