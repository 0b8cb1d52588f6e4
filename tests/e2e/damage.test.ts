import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openBook } from '../../core/book/open-book.ts';
import { importClip } from '../../core/jobs/import-clip.ts';
import { UNWATCHED } from '../../core/jobs/job-context.ts';
import { readPackets } from '../../core/video/index/clip-source.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { seriousViolations } from './accessibility.ts';
import { launchBaybook } from './launch.ts';
import type { RunningBaybook } from './launch.ts';
import { ask } from './page-hands.ts';

const ffmpeg = await findFfmpeg();
const FRAMES = 96;
const GROUP = 24;
/** The first picture after the second key picture. */
const LOST_PACKET = GROUP + 1;
const HLG = ['-color_trc', 'arib-std-b67', '-color_primaries', 'bt2020', '-colorspace', 'bt2020nc'];
const H264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', String(GROUP), ...HLG];

/** A clip that a bad card has bitten: it can be used at once, and what cannot be trusted is told once it was read. */
describe('a clip with damaged frames and high dynamic range', () => {
  let program: RunningBaybook;
  let page: Page;
  let folder: string;

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'baybook-damage-'));
    const path = join(folder, 'bitten.mp4');
    makeCodedClip(ffmpeg, FRAMES, '30', [...H264, path]);
    const { packets } = await readPackets(path, { ffmpeg });
    const bytes = await readFile(path);
    const start = packets.slice(0, LOST_PACKET).reduce((at, { size }) => at + size, bytes.indexOf('mdat') + 4);
    bytes.fill(0xff, start, start + (packets[LOST_PACKET]?.size ?? 0));
    await writeFile(path, bytes);

    const book = openBook(join(folder, 'book'));
    const student = book.addStudent({ firstName: 'Ada', lastName: '', handedness: 'right' });
    const { handedness } = student;
    const day = { date: '2026-05-12', club: '7 iron', handedness, note: '' };
    const lesson = book.addLesson({ studentId: student.id, ...day });
    const swing = book.addSwing({ lessonId: lesson.id, label: 'Swing 1' });
    const order = { swingId: swing.id, view: 'face-on', path, stored: 'copied' } as const;
    const clip = await importClip(book, order, ffmpeg, UNWATCHED);
    const { frames } = book.clipIndex(clip.id);
    for (const [checkpoint, index] of [
      ['address', 5],
      ['top', 40],
    ] as const)
      book.setCheckpoint(clip.id, checkpoint, { index, pts: frames[index]?.pts ?? NaN });
    book.close();
    program = await launchBaybook({ bookFolder: join(folder, 'book') });
    page = program.window;
    page.setDefaultTimeout(20_000);
  });
  afterAll(async () => {
    await program.close();
    await rm(folder, { recursive: true, force: true });
  });

  test('says both on the sheet, once every frame was read', async () => {
    await page.getByRole('button', { name: /^Swing 1 face on/ }).click();
    await page.getByText(/^\d+ damaged frames\. HDR \(HLG\), shown in standard range\.$/).waitFor();
    const students = await ask(page, 'student/list', null);
    const { clips } = await ask(page, 'swing/open', { id: students[0]?.lessons[0]?.swings[0]?.swing.id ?? '' });
    // Every number is where it was.
    expect(clips[0]).toMatchObject({ frameCount: FRAMES, checkpoints: { address: { index: 5 }, top: { index: 40 } } });
  });

  test('the bench tells which frames they are, in words, on the strip, beside the frame and its readings', async () => {
    await page.getByRole('button', { name: 'Open Top, Face on, on the bench' }).click();
    await page.getByRole('img', { name: new RegExp(`^Frames \\d+ to ${2 * GROUP - 1} are damaged$`) }).waitFor();
    await page
      .getByRole('status')
      .getByText(/^frame 40 of 95, [\d.]+ s on screen, damaged$/)
      .waitFor();
    const readings = page.getByRole('region', { name: 'Readings at Top' });
    await readings.getByText(/^Damaged frame:/).waitFor();
    expect(await page.getByRole('region', { name: 'Readings at Address' }).getByText('Damaged').count()).toBe(0);
    expect(await seriousViolations(program.app)).toEqual([]);
  });

  test('a sound frame is not called damaged', async () => {
    await page.keyboard.press('Home');
    await page
      .getByRole('status')
      .getByText(/^frame 0 of 95, [\d.]+ s on screen$/)
      .waitFor();
  });
});
