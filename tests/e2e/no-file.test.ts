import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { makeGreyClip } from '../support/grey-clip.ts';
import { heldFile, noFiles } from '../support/held-file.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { launchBaybook } from './launch.ts';
import { answerDialogs, ask, request } from './page-hands.ts';

/** Four seconds for the disk, and what a busy machine needs besides. */
const ANSWER_LIMIT = 15_000;
/** How long the program may take to end, whatever hangs. */
const END_LIMIT = 12_000;

it('what is no file or never opens is said in time, holds nothing else up, and not the end of the program', async () => {
  const baybook = await launchBaybook();
  onTestFinished(() => baybook.close());
  const { window: page, app } = baybook;
  const clip = join(temporaryFolder(), 'swing.mp4');
  await makeGreyClip({ ffmpeg: await findFfmpeg(), out: clip, frames: 4 });

  /** Chooses a file as the coach does; the program reads its first picture at once. */
  const look = async (path: string) => {
    await answerDialogs(app, path);
    await ask(page, 'clip/choose', null);
    const began = performance.now();
    const outcome = await request(page, 'clip/look', { path });
    expect(performance.now() - began).toBeLessThan(ANSWER_LIMIT);
    return outcome;
  };
  const { folder, pipe, line, device } = await noFiles();
  for (const path of [folder, pipe, line, device])
    expect(await look(path)).toMatchObject({
      ok: false,
      error: { code: 'file-unreadable', message: expect.stringContaining('not a file. Choose a file') as unknown },
    });

  const held = await heldFile(clip, 'held.mp4');
  const refused = {
    ok: false,
    error: { code: 'file-unreadable', message: expect.stringContaining('does not answer') as unknown },
  };
  expect(await look(held)).toMatchObject(refused);
  // More than there are threads for reading files.
  const waiting = Array.from({ length: 5 }, () => request(page, 'clip/look', { path: held }));
  expect(await ask(page, 'settings/read', null)).toMatchObject({ trouble: null });
  expect(await look(clip)).toMatchObject({ ok: true, value: { frameCount: 4 } });
  for (const outcome of await Promise.all(waiting)) expect(outcome).toMatchObject(refused);

  const left = request(page, 'clip/look', { path: held }).catch(() => undefined);
  const program = app.process();
  const ended = new Promise<void>((resolve) => program.once('exit', () => resolve()));
  const began = performance.now();
  await baybook.close();
  await ended;
  expect(performance.now() - began).toBeLessThan(END_LIMIT);
  await left;
});
