import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { BookSwing } from '../../core/model/book.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { filmSession, type Session } from '../support/long-session.ts';
import { seeded } from '../support/seeded.ts';
import { seriousViolations } from './accessibility.ts';
import { launchBaybook } from './launch.ts';
import type { RunningBaybook } from './launch.ts';
import { answerDialogs, ask } from './page-hands.ts';

const ffmpeg = await findFfmpeg();
const SEED = 21;
/** The session is filmed at so many frames a second. */
const RATE = 30;

/** Two cameras that were left running over the same swings: all of them come into one lesson, each view beside its other. */
describe('a lesson filmed in two long clips', () => {
  let program: RunningBaybook;
  let page: Page;
  let folder: string;
  let session: Session;
  const button = (name: string | RegExp): Locator => page.getByRole('button', { name });
  const ticks = (): Locator => page.getByRole('group', { name: 'Swings in this clip' }).getByRole('checkbox');
  const film = (view: 'face-on' | 'down-the-line') =>
    filmSession(join(folder, `${view}.mp4`), ffmpeg, {
      view,
      strikes: 3,
      practices: 1,
      lines: 300,
      random: seeded(SEED),
    });

  async function swingsOfBook(): Promise<readonly BookSwing[]> {
    const [student] = await ask(page, 'student/list', null);
    const swings = student?.lessons[0]?.swings ?? [];
    return Promise.all(swings.map(({ swing }) => ask(page, 'swing/open', { id: swing.id })));
  }

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'baybook-session-'));
    session = await film('down-the-line');
    expect(await film('face-on')).toEqual(session);
    program = await launchBaybook({ bookFolder: join(folder, 'book'), width: 1280, height: 720 });
    page = program.window;
    page.setDefaultTimeout(20_000);
    await button('Add your first student').click();
    await page.getByLabel('First name').fill('Ada');
    await button('Add student').click();
    await button('Add a lesson').click();
    await button('Add lesson').click();
    await button(/Swing 1 no clip yet/).click();
  }, 240_000);
  afterAll(async () => {
    await program.close();
    await rm(folder, { recursive: true, force: true });
  });

  test('offers each strike of the first one, and takes all in one go', async () => {
    await answerDialogs(program.app, join(folder, 'down-the-line.mp4'));
    await button('Add a clip, down the line').click();
    await page.getByText(/^Looking for swings: \d+ %/).waitFor();
    await page.getByText(/^3 swings found\./).waitFor({ timeout: 120_000 });
    expect(await ticks().evaluateAll((boxes: HTMLInputElement[]) => boxes.map((box) => box.checked))).toEqual([
      ...[false, false, true],
    ]);
    expect(await seriousViolations(program.app)).toEqual([]);
    for (const place of [0, 1]) await ticks().nth(place).check({ force: true });
    await button('Add 3 swings').click();
    await page.getByText('3 of 3 swings were added to this lesson.').waitFor({ timeout: 60_000 });

    const swings = await swingsOfBook();
    expect(swings.map(({ swing }) => swing.label)).toEqual(['Swing 1', 'Swing 2', 'Swing 3']);
    for (const [place, { clips }] of swings.entries()) {
      const struck = (session.strikes[place] ?? 0) * RATE - (clips[0]?.kept?.first ?? 0);
      // Three seconds before the strike, less where the clip begins sooner, more where it can only be cut earlier.
      expect(struck).toBeGreaterThan(Math.min(3 * RATE, (session.strikes[place] ?? 0) * RATE) - 5);
      expect(clips[0]?.frameCount).toBeGreaterThan(struck + 2 * RATE - 5);
    }
  });

  test('puts those of the other camera beside them, by their times', async () => {
    await answerDialogs(program.app, join(folder, 'face-on.mp4'));
    await button('Add a clip, face on').click();
    await page.getByText(/^3 swings found\./).waitFor({ timeout: 120_000 });
    for (const place of [0, 1]) await ticks().nth(place).check({ force: true });
    for (const swing of [1, 2, 3]) await page.getByText(`Goes to Swing ${String(swing)}`).waitFor();
    await button('Add 3 swings').click();
    await page.getByText('3 of 3 swings were added to this lesson.').first().waitFor({ timeout: 60_000 });
    await expect
      .poll(async () => (await swingsOfBook()).map(({ clips }) => clips.map(({ view }) => view)), { timeout: 20_000 })
      .toEqual(Array.from({ length: 3 }, () => ['down-the-line', 'face-on']));
    await expect.poll(() => readdir(join(folder, 'book', 'media')), { timeout: 60_000 }).toHaveLength(6);
  });
});
