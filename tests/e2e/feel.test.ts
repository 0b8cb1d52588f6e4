import type { CDPSession, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { marksAt } from '../../core/model/swing.ts';
import { within } from '../support/within.ts';
import { seriousViolations } from './accessibility.ts';
import { clipOf, openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';

/** Keys that can be changed, text that can grow, fingers and pens. */
describe('the feel of the program', () => {
  let demo: DemoProgram;
  let page: Page;
  let cdp: CDPSession;

  beforeAll(async () => {
    demo = await openDemoProgram('feel');
    await openTop();
  });
  afterAll(() => demo.close());

  async function openTop(): Promise<void> {
    page = demo.page;
    cdp = await page.context().newCDPSession(page);
    await demo.openSwing();
    await demo.openCell('Top');
  }

  const button = (name: string | RegExp) => page.getByRole('button', { name });
  const tool = () => page.getByRole('application').getAttribute('data-tool');
  const topMarks = async () => marksAt(clipOf(await demo.readSwing(), 'down-the-line'), 'top');

  test('every key is listed; one is changed, taken from another, refused where it is needed, and kept', async () => {
    await page.keyboard.press('?');
    await page.getByRole('heading', { name: 'Settings' }).waitFor();
    expect(await seriousViolations(demo.program.app)).toEqual([]);
    await button(/^Change the key of Line/).click();
    await page.keyboard.press('Enter');
    await page.getByText(/Enter stays as it is\. Enter accepts a point/).waitFor();
    await button(/^Change the key of Line/).click();
    await page.keyboard.press('f');
    await page.getByText(/F was the key for Fit the player, or the whole picture/).waitFor();
    await button('Change the key of Line: F').waitFor();
    await button('Done').click();
    await page.keyboard.press('f');
    expect(await tool()).toBe('line');
    await demo.restart();
    await openTop();
    await page.keyboard.press('f');
    expect(await tool()).toBe('line');
    await page.keyboard.press('?');
    await button('Usual keys').click();
    await button('Done').click();
    await page.keyboard.press('m');
    await page.keyboard.press('f');
    expect(await tool()).toBe('move');
  });

  test('on a screen of twice as many pixels picture and marks take them all', async () => {
    const sizes = (): Promise<readonly number[]> =>
      page.evaluate(() =>
        ['canvas[data-shown]', 'canvas.lower-canvas'].map((which) => {
          const canvas = document.querySelector<HTMLCanvasElement>(`[role="application"] ${which}`);
          return canvas === null ? 0 : canvas.width / canvas.clientWidth;
        }),
      );
    expect(await sizes()).toEqual([1, 1]);
    const screen = { width: 1280, height: 720, mobile: false };
    await cdp.send('Emulation.setDeviceMetricsOverride', { ...screen, deviceScaleFactor: 2 });
    await expect.poll(sizes, { timeout: 10_000 }).toEqual([2, 2]);
    await cdp.send('Emulation.clearDeviceMetricsOverride');
    await expect.poll(sizes, { timeout: 10_000 }).toEqual([1, 1]);
  });

  test('a pen drags a point, exactly as far as it goes', async () => {
    const before = (await topMarks())?.points['head-centre'];
    const at = await demo.onScreen(before ?? { x: 0, y: 0 });
    const pen = { button: 'left', buttons: 1, pointerType: 'pen', clickCount: 1 } as const;
    await cdp.send('Input.dispatchMouseEvent', { type: 'mouseMoved', ...at, pointerType: 'pen' });
    await cdp.send('Input.dispatchMouseEvent', { type: 'mousePressed', ...at, ...pen });
    await cdp.send('Input.dispatchMouseEvent', { type: 'mouseMoved', x: at.x + 12, y: at.y - 7, ...pen });
    await cdp.send('Input.dispatchMouseEvent', { type: 'mouseReleased', x: at.x + 12, y: at.y - 7, ...pen });
    await button(/^Undo: head centre moved/).waitFor();
    const after = (await topMarks())?.points['head-centre'];
    const zoom = await zoomNow();
    within((after?.x ?? 0) - (before?.x ?? 0), 12 / zoom, 1e-9);
    within((after?.y ?? 0) - (before?.y ?? 0), -7 / zoom, 1e-9);
    await page.keyboard.press('Control+z');
  });

  test('one finger draws, two fingers zoom and end what the first one began', async () => {
    const box = await page.getByRole('application').boundingBox();
    const [x, y] = [Math.round((box?.x ?? 0) + 150), Math.round((box?.y ?? 0) + 150)];
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', points: readonly (readonly [number, number])[]) =>
      cdp.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: points.map(([left, top], id) => ({ x: left, y: top, id })),
      });
    const shapes = (await topMarks())?.shapes.length ?? 0;
    await page.keyboard.press('l');
    await touch('touchStart', [[x, y]]);
    await touch('touchMove', [[x + 60, y + 20]]);
    await touch('touchEnd', []);
    await button(/^Undo: line drawn/).waitFor();
    expect((await topMarks())?.shapes.length).toBe(shapes + 1);

    await page.keyboard.press('l');
    const before = await zoomNow();
    await touch('touchStart', [[x, y]]);
    await touch('touchMove', [[x + 10, y]]);
    await touch('touchStart', [
      [x + 10, y],
      [x + 110, y],
    ]);
    await touch('touchMove', [
      [x + 10, y],
      [x + 210, y],
    ]);
    await touch('touchEnd', []);
    within((await zoomNow()) / before, 2, 1e-9);
    expect((await topMarks())?.shapes.length).toBe(shapes + 1);
    await page.keyboard.press('Escape');
    await page.keyboard.press('m');
    await page.keyboard.press('f');
  });

  test.each([
    ['book', 200],
    ['sheet', 200],
    ['bench', 200],
    ['bench', 150],
  ] as const)('on the %s, text of %i per cent is neither cut off nor laid over other controls', async (where, size) => {
    await page.keyboard.press('?');
    await page.getByText(`${String(size)} %`, { exact: true }).click();
    await button('Done').click();
    if (where !== 'bench') await button(/Robin Larkham, .*Swing 1/).click();
    if (where === 'book') await button('Students').click();
    await page.waitForTimeout(300);
    expect(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize)).toBe(
      `${(16 * size) / 100}px`,
    );
    expect(await clippedTexts()).toEqual([]);
    expect(await overlappingButtons()).toEqual([]);
    expect(await seriousViolations(demo.program.app)).toEqual([]);
    if (where === 'book')
      await page
        .getByRole('button', { name: /^Swing 1 down the line/ })
        .first()
        .click();
    if (where !== 'bench')
      await page
        .getByRole('button', { name: 'Open Top, Down the line, on the bench' })
        .click({ position: { x: 4, y: 4 } });
    await page.getByRole('application').waitFor();
  });

  test('dark is chosen for the program alone, and open to everyone', async () => {
    await page.keyboard.press('?');
    await page.getByText('100 %', { exact: true }).click();
    await page.getByText('Dark', { exact: true }).click();
    await button('Done').click();
    expect(await page.evaluate(() => getComputedStyle(document.documentElement).colorScheme)).toBe('dark');
    expect(await seriousViolations(demo.program.app)).toEqual([]);
  });

  async function zoomNow(): Promise<number> {
    return Number(await page.locator('[role="application"] canvas[data-shown]').getAttribute('data-zoom'));
  }

  /** Texts of which a part cannot be seen: longer than an element that hides what goes beyond it. */
  function clippedTexts(): Promise<readonly string[]> {
    return page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('button, p, h1, h2, h3, li, label, dt, dd, span')]
        .filter((each) => {
          const { overflowX, textOverflow } = getComputedStyle(each);
          const hides = overflowX === 'hidden' && textOverflow !== 'ellipsis';
          return hides && each.children.length === 0 && each.scrollWidth > each.clientWidth + 1;
        })
        .map((each) => each.textContent),
    );
  }

  /** Buttons that can both be seen at one place; what is scrolled out of sight lies nowhere. */
  function overlappingButtons(): Promise<readonly string[]> {
    return page.evaluate(() => {
      const boxes = [...document.querySelectorAll('button')]
        .filter((each) => each.checkVisibility() && each.closest('[role="application"]') === null)
        .map((each) => ({ each, box: each.getBoundingClientRect() }))
        .filter(({ box }) => box.width > 0);
      const name = (each: Element) => each.getAttribute('aria-label') ?? each.textContent;
      return boxes.flatMap((one, place) =>
        boxes
          .slice(place + 1)
          .filter(({ each, box }) => {
            const [left, right] = [Math.max(one.box.left, box.left), Math.min(one.box.right, box.right)];
            const [top, bottom] = [Math.max(one.box.top, box.top), Math.min(one.box.bottom, box.bottom)];
            if (right - left <= 1 || bottom - top <= 1) return false;
            const there = document.elementsFromPoint((left + right) / 2, (top + bottom) / 2);
            return there.includes(each) && there.includes(one.each);
          })
          .map(({ each }) => `${name(one.each)} and ${name(each)}`),
      );
    });
  }
});
