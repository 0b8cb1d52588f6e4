import { copyFile, mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { within } from '../support/within.ts';
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

  test('then and now are two large pictures that move together, or one over the other, and are found again', async () => {
    await demo.openSwing();
    await picker().selectOption({ index: 1 });
    await button('See then and now').click();
    await page.getByRole('heading', { name: 'Then and now' }).waitFor();
    const sentences = page.getByRole('list', { name: 'What changed' }).getByRole('listitem');
    await expect.poll(() => sentences.count()).toBeGreaterThan(0);
    expect(await sentences.count()).toBeLessThanOrEqual(3);
    for (const sentence of await sentences.allTextContents()) expect(sentence).toMatch(/: \S+ → \S+.*(more|less)/);

    const canvas = (time: 'Then' | 'Now') => page.getByRole('img', { name: new RegExp(`^${time}, frame`) });
    const dataOf = async (time: 'Then' | 'Now') => {
      const { zoom, left, top, shown } = await canvas(time).evaluate((each) => ({ ...(each as HTMLElement).dataset }));
      return { lies: [zoom, left, top].map(Number), shown: Number(shown) };
    };
    const [then, now] = await Promise.all(
      [demo.ids.then, demo.ids.now].map(async (id) => clipOf(await ask(page, 'swing/open', { id }), 'down-the-line')),
    );
    for (const checkpoint of ['Impact', 'Top'] as const) {
      await page.getByRole('button', { name: checkpoint, exact: true }).click();
      const name = checkpoint === 'Top' ? 'top' : 'impact';
      for (const [time, clip] of [
        ['Then', then],
        ['Now', now],
      ] as const)
        await expect.poll(async () => (await dataOf(time)).shown).toBe(clip?.checkpoints[name]?.index);
    }
    const [left, right] = await Promise.all([canvas('Then').boundingBox(), canvas('Now').boundingBox()]);
    within(left?.width ?? 0, right?.width ?? 1, 1, 'a pixel that two halves cannot share');
    expect(left?.height).toBe(right?.height);
    // Both together have more than half of a small laptop's window.
    expect(((left?.width ?? 0) * (left?.height ?? 0) * 2) / (1280 * 720)).toBeGreaterThan(0.5);

    const before = await dataOf('Now');
    await page.mouse.move((left?.x ?? 0) + 300, (left?.y ?? 0) + 200);
    await page.mouse.wheel(0, -300);
    await expect.poll(async () => (await dataOf('Then')).lies[0] ?? 0).toBeGreaterThan(before.lies[0] ?? Infinity);
    expect((await dataOf('Then')).lies).toEqual((await dataOf('Now')).lies);
    await page.keyboard.press('f');
    await expect.poll(async () => (await dataOf('Then')).lies).toEqual(before.lies);
    await page.keyboard.press('ArrowRight');
    await expect.poll(async () => (await dataOf('Now')).shown).toBe(before.shown + 1);

    // Played: then goes with now all the way, and Esc ends the run before it leaves the page.
    await page.keyboard.press('Home');
    await expect.poll(async () => (await dataOf('Now')).shown).toBe(0);
    await page.keyboard.press('r');
    await expect.poll(async () => (await dataOf('Now')).shown).toBeGreaterThan(8);
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Play', exact: true }).waitFor();
    const stopped = await page.getByRole('slider', { name: 'Frame of now' }).inputValue();
    await expect.poll(async () => (await dataOf('Now')).shown).toBe(Number(stopped));
    const inStep = (await dataOf('Then')).shown;
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowRight');
    await expect.poll(async () => (await dataOf('Now')).shown).toBe(Number(stopped));
    expect((await dataOf('Then')).shown).toBe(inStep);

    const opacity = () => page.locator('[data-opacity]').getAttribute('data-opacity');
    await page.keyboard.press('y');
    await expect.poll(opacity).toBe('0.5');
    await page.getByRole('slider', { name: 'How much of then' }).fill('20');
    await expect.poll(opacity).toBe('0.2');
    await page.keyboard.press('q');
    await expect.poll(opacity).toBe('1');
    await page.keyboard.press('q');
    await expect.poll(opacity).toBe('0.2');

    await button(/^All \d+ readings, down the line$/).click();
    const rows = page.getByRole('table').getByRole('row');
    expect(await rows.count()).toBeGreaterThan(10);
    await page.keyboard.press('Escape');
    await demo.restart();
    page = demo.page;
    await demo.openSwing();
    await button('See then and now').click();
    await page.getByText('Then 14 April 2026').waitFor();
    await page.keyboard.press('Escape');
    await picker().selectOption({ index: 0 });
    await button(/^Book|^Students/)
      .first()
      .click();
  });

  test('a long name of a file stands in full in the details of then and of now, at any size of text', async () => {
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
      // Then's and now's.
      const more = button(`More about the clip ${LONG_NAME}`);
      await expect.poll(() => more.count()).toBe(2);
      for (const one of await more.all()) {
        await one.click();
        const title = page.getByRole('heading', { name: LONG_NAME });
        expect(await title.evaluate((each) => each.scrollWidth - each.clientWidth)).toBeLessThanOrEqual(0);
        await page.getByRole('dialog').getByRole('button', { name: 'Done' }).click();
      }
    }
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
