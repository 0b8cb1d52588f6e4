import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { BookClip } from '../../core/model/book.ts';
import type { FrameMarks } from '../../core/model/mark.ts';
import { marksAt } from '../../core/model/swing.ts';
import { within } from '../support/within.ts';
import { clipOf, openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { ask } from './page-hands.ts';
import { writeMarks } from './write-edits.ts';

/** Body points are placed one after another by mouse and by keys, from where they stood before. */
describe('the guided run', () => {
  let demo: DemoProgram;
  let page: Page;
  let truth: BookClip;

  beforeAll(async () => {
    demo = await openDemoProgram('guided');
    page = demo.page;
    truth = clipOf(await ask(page, 'swing/open', { id: demo.ids.now }), 'down-the-line');
    const frame = truth.checkpoints.top;
    if (frame === undefined) throw new Error('the demo has no top');
    const bare = { frame: { index: frame.index, pts: frame.pts }, points: {}, shapes: [] };
    await writeMarks(page, truth, bare);
    await page.reload();
    await demo.openSwing();
    await demo.openCell('Top');
    await page.keyboard.press('p');
  });
  afterAll(() => demo.close());

  const clip = async (): Promise<BookClip> => clipOf(await demo.readSwing(), 'down-the-line');
  /** What the book holds of top, but for the shoulders. */
  async function top(): Promise<FrameMarks['points']> {
    const { 'lead-shoulder': lead, 'trail-shoulder': trail, ...rest } = marksAt(await clip(), 'top')?.points ?? {};
    expect([lead, trail]).not.toContain(undefined);
    return rest;
  }
  const canvas = () => page.locator('[role="application"] canvas[data-shown]');
  test('begins at top with the shoulders, says which point comes, where it is, and shows it on a figure', async () => {
    for (const shoulder of ['lead', 'trail']) {
      await page.getByRole('heading', { name: `Next: ${shoulder} shoulder` }).waitFor();
      await page.keyboard.press('Enter');
    }
    await page.getByRole('heading', { name: 'Next: head centre' }).waitFor();
    await page.getByRole('img', { name: 'Head centre on a figure of the player' }).waitFor();
    await page.getByText('2 of 18 placed').waitFor();
    await page.getByRole('list', { name: 'Keys' }).getByText('accepts the dashed ring').waitFor();
    await page.getByText(/^Place head centre, .* Enter accepts the dashed ring, where it stood before\.$/).waitFor();
  });

  test('Enter accepts the place of the frame before, exactly; a click places where it was clicked', async () => {
    // The nearest marked frame before top.
    const before = marksAt(truth, 'lead-arm-level')?.points;
    await page.keyboard.press('Enter');
    expect(await top()).toEqual({ 'head-centre': before?.['head-centre'] });
    await page.getByRole('heading', { name: 'Next: neck base' }).waitFor();
    const wanted = marksAt(truth, 'top')?.points['neck-base'];
    const at = await demo.onScreen(wanted ?? { x: 0, y: 0 });
    await page.mouse.click(at.x, at.y);
    const placed = (await top())['neck-base'];
    const back = await demo.onScreen(placed ?? { x: 0, y: 0 });
    expect(back).toEqual(at);
    within(placed?.x ?? 0, wanted?.x ?? 0, 2);
  });

  test('Ctrl+arrow keys move by 1 px, with Shift by 0.1 px; H hides; Backspace goes back one', async () => {
    const first = (await top())['neck-base'];
    for (const key of ['Control+ArrowRight', 'Control+ArrowRight', 'Control+Shift+ArrowUp'])
      await page.keyboard.press(key);
    const moved = (await top())['neck-base'];
    within(moved?.x ?? 0, (first?.x ?? 0) + 2, 1e-9);
    within(moved?.y ?? 0, (first?.y ?? 0) - 0.1, 1e-9);
    await page.keyboard.press('h');
    expect((await top())['neck-base']?.hidden).toBe(true);
    await page.keyboard.press('Backspace');
    expect(Object.keys(await top())).toEqual(['head-centre']);
    await page.getByRole('heading', { name: 'Next: neck base' }).waitFor();
    await page.keyboard.press('Control+ArrowLeft');
    const start = marksAt(truth, 'lead-arm-level')?.points['neck-base'];
    within((await top())['neck-base']?.x ?? 0, (start?.x ?? 0) - 1, 1e-9);
    // Also where the pointer last pressed a button, which then has the focus.
    await page.getByRole('toolbar').getByRole('button', { name: 'Body points' }).click();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Next: tailbone' }).waitFor();
    expect(Object.keys(await top())).toContain('neck-base');
  });

  test('a drag that begins beside the dashed ring takes the point along from there, without a jump', async () => {
    const start = marksAt(truth, 'lead-arm-level')?.points.tailbone ?? { x: 0, y: 0 };
    const zoom = Number(await canvas().getAttribute('data-zoom'));
    const ring = await demo.onScreen(start);
    await page.mouse.move(ring.x + 3, ring.y - 2);
    await page.mouse.down();
    await page.mouse.move(ring.x + 13, ring.y - 6, { steps: 3 });
    await page.mouse.up();
    const placed = (await top()).tailbone;
    within(placed?.x ?? 0, start.x + 10 / zoom, 1e-9);
    within(placed?.y ?? 0, start.y - 4 / zoom, 1e-9);
    await page.getByRole('heading', { name: 'Next: lead hip' }).waitFor();
  });

  test('the enlarged view shows the pixel under the pointer, away from the hand, and can be put away', async () => {
    const loupe = page.getByRole('img', { name: 'Enlarged view' });
    const box = await page.getByRole('application').boundingBox();
    const [x, y] = [Math.round((box?.x ?? 0) + 200), Math.round((box?.y ?? 0) + 150)];
    await page.mouse.move(x, y);
    await loupe.waitFor();
    const place = await loupe.evaluate((each) =>
      each instanceof HTMLCanvasElement ? { x: Number(each.dataset['x']), y: Number(each.dataset['y']) } : null,
    );
    expect(await demo.onScreen(place ?? { x: 0, y: 0 })).toEqual({ x, y });
    // As many pixels as it takes on the screen: nothing is smoothed by being stretched.
    expect(await loupe.evaluate((each) => [each.clientWidth, (each as HTMLCanvasElement).width])).toEqual([133, 133]);
    const there = await loupe.boundingBox();
    expect(there?.y ?? 0).toBeGreaterThan(y);
    await page.mouse.move((there?.x ?? 0) + 20, (there?.y ?? 0) + 20);
    await expect.poll(async () => (await loupe.boundingBox())?.x ?? 0).toBeLessThan((there?.x ?? 0) - 100);
    await page.keyboard.press('z');
    await loupe.waitFor({ state: 'hidden' });
    await page.keyboard.press('z');
    await page.mouse.move(x, y);
    await loupe.waitFor();
  });

  test('its pixels are those of the picture under the pointer', async () => {
    // Where no point is placed yet, and far enough from the rim of the bench that all around it is in sight at eight times.
    const grip = await demo.onScreen(marksAt(truth, 'top')?.points['grip-end'] ?? { x: 0, y: 0 });
    await page.mouse.move(grip.x, grip.y);
    // From eight times on the bench shows the same squares, to hold them against.
    while (Number(await canvas().getAttribute('data-zoom')) < 8) await page.mouse.wheel(0, -200);
    await page.mouse.move(grip.x + 1, grip.y + 1);
    const pairsNow = () =>
      page.evaluate(() => {
        const [picture, enlarged] = ['canvas[data-shown]', 'canvas[aria-label="Enlarged view"]'].map((which) =>
          document.querySelector<HTMLCanvasElement>(`[role="application"] ${which}`),
        );
        if (!picture || !enlarged) return [];
        const data = (canvas: HTMLCanvasElement, name: string) => Number(canvas.dataset[name]);
        const colour = (canvas: HTMLCanvasElement, x: number, y: number) =>
          [...(canvas.getContext('2d')?.getImageData(Math.floor(x), Math.floor(y), 1, 1).data ?? [])].join();
        const [x, y] = [data(enlarged, 'x'), data(enlarged, 'y')];
        const zoom = data(picture, 'zoom');
        const scale = data(enlarged, 'scale');
        // Aside of the cross, which covers what is straight beside the middle.
        return [-7, -5, -3, 3, 5, 7].flatMap((across) =>
          [-7, -4, 4, 7].map((down) => {
            const middle = { x: Math.floor(x) + across + 0.5, y: Math.floor(y) + down + 0.5 };
            const half = enlarged.width / 2;
            return {
              large: colour(enlarged, (middle.x - x) * scale + half, (middle.y - y) * scale + half),
              bench: colour(picture, middle.x * zoom + data(picture, 'left'), middle.y * zoom + data(picture, 'top')),
            };
          }),
        );
      });
    // The bench and the view may come to rest one after the other.
    const alike = (pairs: Awaited<ReturnType<typeof pairsNow>>) => pairs.filter(({ large, bench }) => large === bench);
    await expect.poll(async () => alike(await pairsNow()).length).toBe(24);
    const pairs = await pairsNow();
    expect(pairs.map(({ large }) => large)).toEqual(pairs.map(({ bench }) => bench));
    expect(new Set(pairs.map(({ bench }) => bench)).size).toBeGreaterThan(8);
    await page.keyboard.press('f');
  });

  test('a path is clicked frame by frame; each click brings the next frame', async () => {
    await page.keyboard.press('t');
    await page.getByRole('heading', { name: 'Path of the clubhead' }).waitFor();
    const from = truth.checkpoints.top?.index ?? 0;
    const box = await page.getByRole('application').boundingBox();
    for (let step = 0; step < 6; step += 1) {
      await page.getByRole('application', { name: new RegExp(`frame ${String(from + step)} of .*exact`) }).waitFor();
      await page.mouse.click((box?.x ?? 0) + 100 + 20 * step, (box?.y ?? 0) + 90 + 5 * step);
    }
    await page
      .getByText(`6 places, on frames ${String(from)} to ${String(from + 5)}. No place on this frame yet.`)
      .waitFor();
    await page.keyboard.press('Backspace');
    await page.getByRole('application', { name: new RegExp(`frame ${String(from + 5)} of`) }).waitFor();
    await page.keyboard.press('Delete');
    await page
      .getByText(`5 places, on frames ${String(from)} to ${String(from + 4)}. No place on this frame yet.`)
      .waitFor();
    const paths = (await clip()).marks.flatMap(({ shapes }) => shapes).filter((shape) => shape.kind === 'path');
    expect(paths).toMatchObject([{ subject: 'clubhead', places: [{}, {}, {}, {}, {}] }]);
    await page.getByRole('button', { name: 'Delete path' }).click();
    await page.getByText('No place yet.').waitFor();
    await page.keyboard.press('Control+z');
    await page.getByText(/^5 places, /).waitFor();
  });
});
