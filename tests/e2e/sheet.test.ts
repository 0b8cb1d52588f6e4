import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { marksAt } from '../../core/model/swing.ts';
import { cropAroundPlayer } from '../../core/painting/crop.ts';
import { within } from '../support/within.ts';
import { clipOf, openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';

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
    await page.mouse.click((box?.x ?? 0) + 4, (box?.y ?? 0) + 4);
    await page.getByRole('application').waitFor();
  });
});
