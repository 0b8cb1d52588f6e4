import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { within } from '../support/within.ts';
import { clipOf, openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { ask } from './page-hands.ts';

/** The strip shows the clip's own pictures and how loud it is, and is dragged over to any frame. */
describe('the strip', () => {
  let demo: DemoProgram;
  let page: Page;
  let impact: number;
  let last: number;

  beforeAll(async () => {
    demo = await openDemoProgram('strip');
    page = demo.page;
    const clip = clipOf(await ask(page, 'swing/open', { id: demo.ids.now }), 'down-the-line');
    impact = clip.checkpoints.impact?.index ?? -1;
    last = clip.frameCount - 1;
    await demo.openSwing();
    await page.getByRole('button', { name: 'Open clip, Down the line' }).click();
    await page.getByText('Exact picture').waitFor();
  });
  afterAll(() => demo.close());

  const slider = () => page.getByRole('slider', { name: 'Frame', exact: true });

  test('fills with the pictures of the clip, each at its place', async () => {
    const strip = page.locator('canvas[data-strip]');
    const box = await strip.boundingBox();
    expect(box?.height).toBe(44);
    await expect
      .poll(() => strip.evaluate((canvas) => Number(canvas instanceof HTMLElement ? canvas.dataset['strip'] : 0)), {
        timeout: 60_000,
      })
      .toBeGreaterThan(8);
    // The player stands in the middle of each picture, so its columns differ from one another.
    const columns = await strip.evaluate((canvas) => {
      const context = canvas instanceof HTMLCanvasElement ? canvas.getContext('2d') : null;
      const data = context?.getImageData(0, 20, 400, 1).data ?? [];
      return new Set(Array.from({ length: 400 }, (_, at) => data[4 * at])).size;
    });
    expect(columns).toBeGreaterThan(10);
  });

  test('goes to the frame under the pointer while it is dragged', async () => {
    const box = await slider().boundingBox();
    if (box === null) throw new Error('the strip is not in sight');
    await page.mouse.move(box.x + 20, box.y + 20);
    await page.mouse.down();
    for (const part of [0.25, 0.5, 0.75]) {
      await page.mouse.move(box.x + part * box.width, box.y + 30, { steps: 4 });
      await expect.poll(async () => Math.abs(Number(await slider().inputValue()) - part * last)).toBeLessThan(2);
    }
    await page.mouse.up();
    await page.getByText('Exact picture').waitFor();
  });

  test('says where the clip is loudest, which in the demo is the strike', async () => {
    await page.getByRole('button', { name: /^Loudest at frame \d+, mostly the strike/ }).click();
    within(Number(await slider().inputValue()), impact, 2);
  });

  test('leaves the picture its room on a small laptop, with all controls in one row', async () => {
    const stage = await page.getByRole('application').boundingBox();
    expect(stage?.height ?? 0).toBeGreaterThan(380);
    const rows = await page.evaluate(() => {
      const buttons = document.querySelectorAll(
        '[aria-label="Run through the frames"] button, [aria-label="Go to frame"]',
      );
      return new Set([...buttons].map((each) => Math.round(each.getBoundingClientRect().top))).size;
    });
    expect(rows).toBe(1);
    const overflow = await page.evaluate(() => document.documentElement.scrollHeight - innerHeight);
    expect(overflow).toBeLessThanOrEqual(0);
  });
});
