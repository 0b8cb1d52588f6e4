import { mkdir, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { planStills } from '../../core/jobs/plan-stills.ts';
import { SHIPPED_GOALS } from '../../core/parse/shipped-goals.ts';
import type { BookClip, BookSwing } from '../../core/model/book.ts';
import type { PicturePoint } from '../../core/model/mark.ts';
import { markedSwingOf, marksAt } from '../../core/model/swing.ts';
import type { Checkpoint } from '../../core/model/words.ts';
import { seriousViolations } from './accessibility.ts';
import { clipOf, openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { answerDialogs, leaveBench } from './page-hands.ts';

/** From a number to the marks it was made from, back from a mark to its numbers, and onto the still. */
describe('the readings on the bench', () => {
  let demo: DemoProgram;
  let page: Page;

  beforeAll(async () => {
    demo = await openDemoProgram('readings');
    page = demo.page;
    await demo.openSwing();
  });
  afterAll(() => demo.close());

  const openAddress = (): Promise<void> => demo.openCell('Address');
  const readSwing = (): Promise<BookSwing> => demo.readSwing();

  const at = (checkpoint: string): Locator =>
    page.getByRole('region', { name: `Readings at ${checkpoint}`, exact: true });
  const reading = (checkpoint: string, name: RegExp): Locator => at(checkpoint).getByRole('button', { name });
  const pin = (checkpoint: string, name: string): Locator =>
    at(checkpoint).getByRole('button', { name: `Put on the still: ${name}`, exact: true });

  /** How much is drawn over the picture at a place of it, 0 to 255: the marks' canvas is clear where nothing is. */
  async function drawnAt({ x, y }: PicturePoint): Promise<number> {
    const shown = page.locator('[role="application"] canvas[data-shown]');
    const data = await shown.evaluate((each) => (each instanceof HTMLCanvasElement ? { ...each.dataset } : {}));
    const left = x * Number(data['zoom']) + Number(data['left']);
    const top = y * Number(data['zoom']) + Number(data['top']);
    return page.locator('[role="application"] canvas.lower-canvas').evaluate(
      (each, [left, top]) => {
        if (!(each instanceof HTMLCanvasElement)) return Number.NaN;
        const ratio = each.width / each.clientWidth;
        const pixel = each.getContext('2d')?.getImageData(Math.floor(left * ratio), Math.floor(top * ratio), 1, 1);
        return pixel?.data[3] ?? Number.NaN;
      },
      [left, top] as const,
    );
  }

  const lineOf = (swing: BookSwing): BookClip => clipOf(swing, 'down-the-line');

  /** A place on the spine of address that no mark of the top lies on. */
  async function onSpineOfAddress(): Promise<PicturePoint> {
    const points = marksAt(lineOf(await readSwing()), 'address')?.points;
    const [tail, neck] = [points?.tailbone, points?.['neck-base']];
    if (tail === undefined || neck === undefined) throw new Error('the demo has no spine at address');
    return { x: 0.6 * tail.x + 0.4 * neck.x, y: 0.6 * tail.y + 0.4 * neck.y };
  }

  test('a press shows on its own frame what a reading measures, how it was made and what is wanted', async () => {
    await openAddress();
    const shoulders = reading('Top', /^Shoulders to spine/);
    expect(await shoulders.innerText()).toMatch(/Goal 90°: (too high|too low|too close to call)/);
    const row = shoulders.locator('xpath=..');
    expect(await row.getByText('common practice').count()).toBe(0);
    await shoulders.focus();
    await page.keyboard.press('Enter');
    const named = lineOf(await readSwing()).checkpoints.top?.index ?? -1;
    await page.getByRole('application', { name: new RegExp(`frame ${String(named)} of .*exact`) }).waitFor();
    expect(await shoulders.getAttribute('aria-pressed')).toBe('true');
    expect(await row.getByRole('list', { name: 'How it was made' }).innerText()).toContain('click error assumed');
    // Its checkpoint has come to the top of the list; the keyboard is still on it.
    expect(await page.getByRole('heading', { level: 4 }).first().innerText()).toBe('Top');
    expect(await shoulders.evaluate((each) => each === document.activeElement)).toBe(true);
    await row.getByText(/spine as it was at address/).waitFor();
    await row.getByText(/square to the spine\. Where this is from: common practice/).waitFor();
    await row.getByText(/^The ± is calculated/).waitFor();
    const spine = await onSpineOfAddress();
    await expect.poll(() => drawnAt(spine)).toBeGreaterThan(200);
    // Again: it goes, but for what the goals want something of, which N puts away.
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: /^chosen readings on the picture/ }).waitFor();
    await expect.poll(() => drawnAt(spine)).toBeGreaterThan(200);
    await page.keyboard.press('n');
    await page.keyboard.press('n');
    await page.getByRole('button', { name: /^no readings on the picture/ }).waitFor();
    await expect.poll(() => drawnAt(spine)).toBe(0);
    expect(await row.getByText('common practice').count()).toBe(0);
  });

  test('a selected point marks the readings that are made from it, and brings the first into sight', async () => {
    const points = marksAt(lineOf(await readSwing()), 'top')?.points;
    const shoulder = points?.['lead-shoulder'];
    if (shoulder === undefined) throw new Error('the demo has no lead shoulder at top');
    await page.locator('[data-scrolls]').evaluate((side) => side.scrollTo(0, side.scrollHeight));
    const there = await demo.onScreen(shoulder);
    await page.mouse.click(there.x, there.y);
    await page.getByRole('region', { name: 'Selected mark' }).getByText('Lead shoulder').waitFor();
    const marked = page.getByRole('listitem').filter({ has: page.getByText('from this point', { exact: true }) });
    const rows = marked.filter({ has: page.getByRole('button', { name: /^Put on the still/ }) });
    const names = await rows.evaluateAll((each) => each.map((row) => row.querySelector('button span')?.textContent));
    expect(names).toEqual(['Shoulders to spine', 'Shoulder line']);
    const first = await rows.first().boundingBox();
    const side = await page.getByRole('complementary').boundingBox();
    expect(first?.y ?? 0).toBeGreaterThanOrEqual(side?.y ?? Number.NaN);
    expect((first?.y ?? 0) + (first?.height ?? 0)).toBeLessThanOrEqual((side?.y ?? 0) + (side?.height ?? 0));
    await page.keyboard.press('Enter');
    await expect.poll(() => marked.count()).toBe(0);
  });

  test('readings of the other view are folded below; a press on one opens its frame', async () => {
    const fold = page.getByRole('button', { name: /^Face on \d+ readings/ });
    expect(await fold.getAttribute('aria-expanded')).toBe('false');
    await fold.click();
    const tilt = reading('Impact, face on', /^Side tilt/);
    await tilt.focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: /^Down the line \d+ readings/ }).waitFor();
    const pressed = reading('Impact', /^Side tilt/);
    expect(await pressed.getAttribute('aria-pressed')).toBe('true');
    expect(await pressed.evaluate((each) => each === document.activeElement)).toBe(true);
    expect(await seriousViolations(demo.program.app)).toEqual([]);
  });

  test('at twice the size of text the panel wraps and nothing of it is cut off', async () => {
    const side = page.getByRole('complementary');
    const cutOff = () =>
      side.evaluate((each) =>
        [each, ...each.querySelectorAll('section, ul, li, button, span')]
          .filter((part) => part.scrollWidth > part.clientWidth + 1 && getComputedStyle(part).display !== 'inline')
          .map((part) => `${part.tagName} ${part.textContent}`),
      );
    await page.evaluate(() => void (document.documentElement.style.fontSize = '200%'));
    expect(await cutOff()).toEqual([]);
    await page.evaluate(() => void (document.documentElement.style.fontSize = ''));
  });

  /** The readings that the still of the view down the line lists at a checkpoint. */
  async function onStill(checkpoint: Checkpoint): Promise<readonly string[]> {
    const [still] = planStills({
      now: markedSwingOf(await readSwing()),
      then: null,
      checkpoints: [checkpoint],
      views: ['down-the-line'],
      goals: SHIPPED_GOALS,
    });
    return still?.rows[0]?.panels[0]?.readings.map(({ label }) => label) ?? [];
  }

  test('a pinned reading stands alone on the still and in its cell, also after the program was closed', async () => {
    const all = await onStill('top');
    expect(all.length).toBeGreaterThan(3);
    await leaveBench(page);
    await openAddress();
    await pin('Top', 'Shoulders to spine').focus();
    await page.keyboard.press('Space');
    await expect.poll(() => pin('Top', 'Shoulders to spine').getAttribute('aria-pressed')).toBe('true');
    await at('Top').getByText('1 on the still', { exact: true }).waitFor();
    expect(await onStill('top')).toEqual(['Shoulders to spine']);
    expect((await onStill('address')).length).toBeGreaterThan(2);
    await page.getByRole('button', { name: /^Undo: reading put on the still/ }).waitFor();

    await leaveBench(page);
    const cell = page.getByRole('button', { name: 'Open Top, Down the line, on the bench' }).locator('xpath=../..');
    await expect.poll(() => cell.locator('dt').allInnerTexts()).toEqual(['Shoulders to spine']);
    const stills = join(demo.folder, 'stills');
    await mkdir(stills);
    await answerDialogs(demo.program.app, stills);
    await page.getByRole('button', { name: 'Save stills' }).click();
    await page
      .getByRole('status')
      .getByText(/Saved \d+ still/)
      .waitFor({ timeout: 60_000 });
    expect((await readdir(stills)).filter((name) => name.endsWith('.jpg')).length).toBeGreaterThan(0);

    await demo.restart();
    page = demo.page;
    await demo.openSwing();
    await openAddress();
    expect(await pin('Top', 'Shoulders to spine').getAttribute('aria-pressed')).toBe('true');
    await pin('Top', 'Shoulders to spine').click();
    expect(await onStill('top')).toEqual(all);
    await page.keyboard.press('Control+z');
    expect(await onStill('top')).toEqual(['Shoulders to spine']);
  });
});
