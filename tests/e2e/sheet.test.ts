import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { PNG } from 'pngjs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { marksAt } from '../../core/model/swing.ts';
import { cropAroundPlayer } from '../../core/painting/crop.ts';
import { within } from '../support/within.ts';
import { clipOf, openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';

/** From coming into sight to its picture, ms: 150 on a machine that does nothing else. */
const PICTURE_LIMIT = 3000;
/** For the sharp pictures of all cells and the copies of four clips. */
const PATIENCE = { timeout: 90_000 };

/** The cells of the lesson sheet are live: marks are dragged where they stand, and the numbers beside them follow. */
describe('the lesson sheet', () => {
  let demo: DemoProgram;
  let page: Page;

  beforeAll(async () => {
    demo = await openDemoProgram('sheet');
    page = demo.page;
    await demo.openSwing();
    await cell().waitFor();
  });
  afterAll(() => demo.close());

  const cell = () => page.getByRole('button', { name: 'Open Address, Down the line, on the bench' });

  /** Where the tailbone of address lies: in the picture, on the screen, and picture pixels a CSS pixel. */
  async function tailbone() {
    const clip = clipOf(await demo.readSwing(), 'down-the-line');
    const at = marksAt(clip, 'address')?.points.tailbone;
    if (at === undefined) throw new Error('the demo has no tailbone');
    const named = Object.values(clip.checkpoints);
    const frames = clip.marks.filter(({ frame }) => named.some(({ index }) => index === frame.index));
    const part = cropAroundPlayer(frames, clip) ?? { x: 0, y: 0, width: clip.width, height: clip.height };
    const box = await cell()
      .locator('canvas')
      .locator('xpath=..')
      .evaluate((still) => {
        const { x, y, width } = still.getBoundingClientRect();
        return { x, y, width };
      });
    const scale = part.width / box.width;
    // On whole pixels of the screen, which come through exactly.
    const [x, y] = [Math.round(box.x + (at.x - part.x) / scale), Math.round(box.y + (at.y - part.y) / scale)];
    return { at, scale, x, y };
  }

  const backIncline = () =>
    page.locator('dt', { hasText: 'Back incline' }).first().locator('xpath=following-sibling::dd');

  test('a point that is dragged in its cell lands exactly as far away as the pointer went; its readings follow', async () => {
    const before = await tailbone();
    const number = await backIncline().innerText();
    await page.mouse.move(before.x, before.y);
    await page.mouse.down();
    await page.mouse.move(before.x - 20, before.y - 4, { steps: 4 });
    await expect.poll(() => backIncline().innerText()).not.toBe(number);
    // Nothing is kept before it is let go.
    expect((await tailbone()).at).toEqual(before.at);
    await page.mouse.up();
    await page.getByRole('button', { name: /^Undo/, disabled: false }).waitFor();
    const { at } = await tailbone();
    within(at.x, before.at.x - 20 * before.scale, 1e-9);
    within(at.y, before.at.y - 4 * before.scale, 1e-9);
    // The press has not opened the bench.
    expect(await page.getByRole('application').count()).toBe(0);
    await page.getByRole('button', { name: /^Undo/ }).click();
    expect((await tailbone()).at).toEqual(before.at);
    await expect.poll(() => backIncline().innerText()).toBe(number);
  });

  test('Esc while it is dragged leaves everything as it was', async () => {
    const before = await tailbone();
    const whole = await demo.readSwing();
    await page.mouse.move(before.x, before.y);
    await page.mouse.down();
    await page.mouse.move(before.x + 15, before.y + 9, { steps: 3 });
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect(await demo.readSwing()).toEqual(whole);
    expect(await page.getByRole('application').count()).toBe(0);
  });

  test('beside the marks a press opens the frame on the bench', async () => {
    const box = await cell().locator('canvas').boundingBox();
    if (box === null) throw new Error('the cell is not in sight');
    // Half way down its rim: above, the heading of its row may lie over it.
    await page.mouse.click(box.x + box.width - 4, box.y + box.height / 2);
    await page.getByRole('application').waitFor();
  });

  /**
   * Follows every still of the page from now on: when it first lay in sight, and when its canvas first showed a picture,
   * which is read from its pixels. `seen` tells the milliseconds between, of those that came.
   */
  const watchCells = () =>
    page.evaluate(() => {
      const begun = new Map<Element, number>();
      const seen: number[] = [];
      const look = (): void => {
        // What lies under the head of the window is not in sight.
        const page = document.querySelector('main')?.getBoundingClientRect();
        for (const still of document.querySelectorAll<HTMLElement>('[data-place="still"]')) {
          const { top, bottom } = still.getBoundingClientRect();
          const inSight = page !== undefined && bottom > page.top + 1 && top < page.bottom - 1;
          if (!begun.has(still) && inSight) begun.set(still, performance.now());
          const canvas = still.querySelector('canvas');
          const since = begun.get(still);
          // A canvas is asked for its pixels only once it was painted: the question alone would make it black.
          if (since === undefined || since < 0 || canvas?.dataset['still'] === undefined) continue;
          const { data } = canvas.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height) ?? { data: [0] };
          if (data.every((value, place) => value === data[place % 4])) continue;
          seen.push(performance.now() - since);
          begun.set(still, -1);
        }
        requestAnimationFrame(look);
      };
      look();
      Object.assign(window, { seenCells: seen, begunCells: begun });
    });
  const cellsSeen = () =>
    page.evaluate(() => {
      const { seenCells, begunCells } = window as unknown as { seenCells: number[]; begunCells: Map<Element, number> };
      return {
        seen: seenCells,
        missing: [...begunCells].filter(([still, since]) => still.isConnected && since >= 0).length,
      };
    });

  test('a cell shows its picture soon after it comes into sight, and the sharp one when it rests', async () => {
    await demo.restart();
    page = demo.page;
    await demo.openSwing();
    await page.getByLabel('Compare with an earlier swing (then)').selectOption({ index: 1 });
    const folder = join(demo.folder, 'settings', 'scrub-copies');
    const isWhole = (name: string) => /complete/.test(readFileSync(join(folder, name), 'latin1'));
    const whole = () => readdirSync(folder).filter((name) => name.endsWith('.frames') && isWhole(name));
    await expect.poll(() => whole().length, PATIENCE).toBe(4);
    await demo.restart();
    page = demo.page;
    await page
      .getByRole('button', { name: /^Swing 1 down the line/ })
      .first()
      .waitFor();
    await watchCells();
    await demo.openSwing();
    await cell().waitFor();
    await expect.poll(async () => (await cellsSeen()).missing, PATIENCE).toBe(0);
    const opened = (await cellsSeen()).seen.length;
    expect(opened).toBeGreaterThan(0);
    // Row by row down to the end.
    for (let row = 0; row < 8; row += 1) {
      await page
        .locator('h3')
        .nth(row)
        .scrollIntoViewIfNeeded({ timeout: 1000 })
        .catch(() => undefined);
      await page.evaluate(() => new Promise((shown) => requestAnimationFrame(() => requestAnimationFrame(shown))));
      await expect.poll(async () => (await cellsSeen()).missing, PATIENCE).toBe(0);
    }
    const { seen } = await cellsSeen();
    expect(seen.length).toBeGreaterThan(opened);
    expect(Math.max(...seen), `at first ${String(opened)} of ${seen.map(Math.round).join(' ')} ms`).toBeLessThan(
      PICTURE_LIMIT,
    );
    const sharp = page.locator('canvas[data-still="sharp"]');
    await expect.poll(() => sharp.count(), PATIENCE).toBeGreaterThanOrEqual(seen.length);
  });

  test('a cell whose picture does not come yet is not black', async () => {
    await demo.restart();
    page = demo.page;
    const findServer = () =>
      demo.program.app.evaluate(
        ({ app }) => app.getAppMetrics().find(({ name }) => name === 'Baybook frames')?.pid ?? 0,
      );
    await expect.poll(findServer, PATIENCE).toBeGreaterThan(0);
    const server = await findServer();
    // What is asked of the frame server is answered only when it goes on.
    process.kill(server, 'SIGSTOP');
    await demo.openSwing();
    await cell().waitFor();
    const box = await cell().locator('canvas').boundingBox();
    const { data, width } = PNG.sync.read(await page.screenshot());
    const at = 4 * (Math.round((box?.y ?? 0) + 20) * width + Math.round((box?.x ?? 0) + 20));
    const colour = [...data.subarray(at, at + 3)];
    expect(await page.locator('canvas[data-still]').count()).toBe(0);
    expect(Math.min(...colour)).toBeGreaterThan(40);
    process.kill(server, 'SIGCONT');
    await expect.poll(() => page.locator('canvas[data-still]').count(), PATIENCE).toBeGreaterThan(0);
  });
});
