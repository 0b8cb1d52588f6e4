import { copyFile, mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { clipOf, openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { ask, handOver } from './page-hands.ts';

/** As long as systems allow with some room to spare; the number at its end tells it from the next one. */
const LONG_NAME = `${'Bay 3 seven iron from the mat by the wall_'.repeat(4)}20261112_0007.mp4`;

/** What the sheet says of the swing to compare with: which clips these are, and what is missing where there is none. */
describe('the comparison', () => {
  let demo: DemoProgram;
  let page: Page;

  beforeAll(async () => {
    demo = await openDemoProgram('compare');
    page = demo.page;
  });
  afterAll(() => demo.close());

  const button = (name: string | RegExp) => page.getByRole('button', { name });
  const picker = () => page.getByLabel('Compare with an earlier swing (then)');

  async function textOf(size: number): Promise<void> {
    await page.keyboard.press('?');
    await page.getByText(`${String(size)} %`, { exact: true }).click();
    await button('Done').click();
  }

  test('a long name of a file stands in full, over both swings, in its details and at any size of text', async () => {
    // The clips face on come in again, from files with a long name.
    for (const swingId of [demo.ids.then, demo.ids.now]) {
      const clip = clipOf(await ask(page, 'swing/open', { id: swingId }), 'face-on');
      const folder = join(demo.folder, swingId);
      const path = join(folder, LONG_NAME);
      await mkdir(folder);
      await copyFile(join(demo.folder, 'book', 'media', `${clip.sha256}.mp4`), path);
      await ask(page, 'bin/move', { kind: 'clip', id: clip.id });
      await handOver(page, path);
      const order = { jobId: swingId, swingId, path, span: null, view: 'face-on', stored: 'linked' } as const;
      await ask(page, 'clip/import', order);
    }
    await demo.openSwing();
    await picker().selectOption({ index: 1 });
    await page.getByText('Then, ').nth(1).waitFor();
    for (const size of [100, 200]) {
      await textOf(size);
      const names = page.locator('p').filter({ hasText: LONG_NAME });
      await expect.poll(() => names.count()).toBe(2);
      for (const name of await names.all()) {
        const { cut, wide } = await name.evaluate((each) => ({
          cut: each.scrollWidth - each.clientWidth,
          wide: each.clientWidth,
        }));
        expect(cut).toBeLessThanOrEqual(0);
        // Half of the sheet, or all of it where the columns come one under the other.
        expect(wide).toBeLessThan(size === 100 ? 700 : 1280);
      }
    }
    await button(`More about the clip ${LONG_NAME}`).first().click();
    const title = page.getByRole('heading', { name: LONG_NAME });
    expect(await title.evaluate((each) => each.scrollWidth - each.clientWidth)).toBeLessThanOrEqual(0);
    await page.getByRole('dialog').getByRole('button', { name: 'Done' }).click();
    await textOf(100);
  });

  test('a then filmed from elsewhere says which clip is missing, and leads to where it can be added', async () => {
    const then = await ask(page, 'swing/open', { id: demo.ids.then });
    await ask(page, 'bin/move', { kind: 'clip', id: clipOf(then, 'down-the-line').id });
    const now = await ask(page, 'swing/open', { id: demo.ids.now });
    await ask(page, 'bin/move', { kind: 'clip', id: clipOf(now, 'face-on').id });
    await demo.restart();
    page = demo.page;
    await button(/^Swing 1 down the line/)
      .first()
      .click();
    await picker().selectOption({ index: 1 });
    await page.getByText(/^To compare, add a clip face on here, or one down the line to Swing 1 of .*\.$/).waitFor();
    await button(/^Open Swing 1 of /).click();
    await button('Add a clip, down the line').waitFor();
  });

  test('an earlier swing without clips is where the sheet leads, not to another lesson', async () => {
    const then = await ask(page, 'swing/open', { id: demo.ids.then });
    for (const { id } of then.clips) await ask(page, 'bin/move', { kind: 'clip', id });
    await demo.restart();
    page = demo.page;
    await button(/^Swing 1 down the line/)
      .first()
      .click();
    await page.getByText(/^To compare, add the clips of Swing 1 of .*: it has none yet\.$/).waitFor();
    expect(await page.getByText('Add a lesson').count()).toBe(0);
    await button(/^Open Swing 1 of /).click();
    await page.getByText('Press “Add a clip, down the line”').waitFor();
  });
});
