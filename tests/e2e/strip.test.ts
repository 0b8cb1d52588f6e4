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
    expect(box?.height).toBe(36);
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
    await page.getByRole('button', { name: /^Loudest sound at frame \d+/ }).click();
    within(Number(await slider().inputValue()), impact, 2);
  });

  test('leaves the picture two thirds of a small laptop, with every control in sight', async () => {
    const stage = await page.getByRole('application').boundingBox();
    const { width, height } = await page.evaluate(() => ({ width: innerWidth, height: innerHeight }));
    expect(((stage?.width ?? 0) * (stage?.height ?? 0)) / (width * height)).toBeGreaterThanOrEqual(0.65);
    const outside = await page.evaluate(() => {
      const controls = document.querySelectorAll(
        '[aria-label="Playback"] button, [aria-label="Go to frame"], [role="toolbar"] button',
      );
      return [...controls].filter((each) => {
        const { left, right, top, bottom } = each.getBoundingClientRect();
        return left < 0 || top < 0 || right > innerWidth || bottom > innerHeight;
      }).length;
    });
    expect(outside).toBe(0);
    const overflow = await page.evaluate(() => document.documentElement.scrollHeight - innerHeight);
    expect(overflow).toBeLessThanOrEqual(0);
  });

  test('has at most twelve controls with a frame or a fill while nothing is done', async () => {
    await page.mouse.move(640, 300);
    const framed = await page.evaluate(() => {
      const isClear = (colour: string): boolean => colour === 'transparent' || /, 0\)$/.test(colour);
      const isFramed = (element: Element): boolean => {
        const style = getComputedStyle(element);
        const edges = (['Top', 'Right', 'Bottom', 'Left'] as const).filter(
          (edge) => parseFloat(style[`border${edge}Width`]) > 0 && !isClear(style[`border${edge}Color`]),
        );
        return edges.length > 1 || !isClear(style.backgroundColor);
      };
      return [...document.querySelectorAll('button, select, input, textarea, summary')]
        .filter((element) => {
          const { left, right, top, bottom, width } = element.getBoundingClientRect();
          const inSight = width > 0 && right > 0 && bottom > 0 && left < innerWidth && top < innerHeight;
          // What is scrolled out of its panel, or lies unseen over what it moves, is not seen.
          const seen = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
          return inSight && seen !== null && element.contains(seen) && getComputedStyle(element).opacity !== '0';
        })
        .filter((element) => isFramed(element) || element.matches('[type="checkbox"], [type="range"]'))
        .map((element) => element.getAttribute('aria-label') ?? element.textContent);
    });
    expect(framed.length, framed.join('; ')).toBeLessThanOrEqual(12);
    // The count sees what is there: the tool in hand is filled, and the way to play is framed.
    expect(framed).toEqual(expect.arrayContaining(['Play']));
  });

  test.each([100, 150, 200])(
    'keeps every name of a frame inside itself and off the others, with text of %i per cent',
    async (size) => {
      await page.keyboard.press('?');
      await page.getByText(`${String(size)} %`, { exact: true }).click();
      await page.getByRole('button', { name: 'Done' }).click();
      // The first and the last frame have names too, and so have both their neighbours.
      for (const [frame, key] of [
        ['0', '1'],
        ['1', '2'],
        [String(last - 1), '7'],
        [String(last), '8'],
      ] as const) {
        await page.getByRole('textbox', { name: 'Go to frame' }).fill(frame);
        await page.keyboard.press('Enter');
        await page.getByText('Exact picture').waitFor();
        await page.keyboard.press('Escape');
        await page.keyboard.press(key);
      }
      await page.getByText('All saved').waitFor();
      const { strip, names } = await page.evaluate(() => {
        const inPage = (each: Element) => {
          const { left, right, top, bottom } = each.getBoundingClientRect();
          return { text: each.textContent, left, right, top, bottom };
        };
        const panel = document.querySelector('[data-flags]');
        return {
          strip: panel === null ? null : inPage(panel),
          names: [...document.querySelectorAll('[data-flags] [data-from]')].map(inPage),
        };
      });
      if (strip === null) throw new Error('there is no strip');
      const written = names.filter(({ text }) => text !== '');
      expect(written.map(({ text }) => text)).toEqual(expect.arrayContaining(['Address', 'Finish']));
      for (const { text, left, right } of written) {
        expect.soft(left, text).toBeGreaterThanOrEqual(strip.left - 0.5);
        expect.soft(right, text).toBeLessThanOrEqual(strip.right + 0.5);
      }
      const shared = (from: number, to: number, other: number, otherTo: number) =>
        Math.min(to, otherTo) - Math.max(from, other);
      const crossing = written.flatMap((one, place) =>
        written
          .slice(place + 1)
          .filter(({ left, right, top, bottom }) => {
            // The lines of the two rows share a tenth of their height, where no letter reaches.
            const inHeight = shared(one.top, one.bottom, top, bottom) > 0.2 * (bottom - top);
            return inHeight && shared(one.left, one.right, left, right) > 0.5;
          })
          .map(({ text }) => `${one.text} and ${text}`),
      );
      expect(crossing).toEqual([]);
    },
  );
});
