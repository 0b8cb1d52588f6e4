import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { BookSwing } from '../../core/model/book.ts';
import type { Checkpoint, View } from '../../core/model/words.ts';
import { seriousViolations } from './accessibility.ts';
import { clipOf, openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { ask } from './page-hands.ts';
import { clearNames } from './write-edits.ts';

/** Which frame each canvas shows, after each change of either, as the page saw it. */
interface Seen {
  readonly main: number;
  readonly companion: number;
}

describe('running through frames, and both views together', () => {
  let demo: DemoProgram;
  let page: Page;
  let now: BookSwing;
  let then: BookSwing;

  beforeAll(async () => {
    demo = await openDemoProgram('run');
    page = demo.page;
    now = await ask(page, 'swing/open', { id: demo.ids.now });
    then = await ask(page, 'swing/open', { id: demo.ids.then });
    await demo.openSwing();
    await page.getByLabel(/Compare with an earlier swing/).selectOption({ index: 1 });
    await demo.openCell('Top');
  });
  afterAll(() => demo.close());

  const button = (name: string | RegExp): Locator => page.getByRole('button', { name, exact: true });
  const stage = (): Locator => page.getByRole('application');
  const mainCanvas = (): Locator => page.locator('[role="application"] canvas[data-shown]');
  const companionCanvas = (name: RegExp): Locator => page.getByRole('img', { name });

  const frameOf = (swing: BookSwing, view: View, checkpoint: Checkpoint): number =>
    clipOf(swing, view).checkpoints[checkpoint]?.index ?? -1;

  async function goTo(frame: number): Promise<void> {
    await page.getByLabel('Go to frame').fill(String(frame));
    await page.getByLabel('Go to frame').press('Enter');
    await page.locator(`[role="application"] canvas[data-shown="${String(frame)}"]`).waitFor();
    await stage().focus();
  }

  /** Takes down the picture that is there and every one that comes, until the answer is called for what was seen. */
  async function watch(): Promise<() => Promise<Seen[]>> {
    await page.evaluate(() => {
      const seen: { main: number; companion: number }[] = [];
      const shownOn = (canvas: string): number =>
        Number(document.querySelector<HTMLCanvasElement>(canvas)?.dataset['shown'] ?? -1);
      const look = (): void => {
        const shown = {
          main: shownOn('[role="application"] canvas'),
          companion: shownOn('canvas[role="img"][data-shown]'),
        };
        if (seen.at(-1)?.main !== shown.main || seen.at(-1)?.companion !== shown.companion) seen.push(shown);
      };
      const observer = new MutationObserver(look);
      // The sharp picture of the frame that is there may come at any time, and is no other frame.
      look();
      observer.observe(document, { subtree: true, attributeFilter: ['data-shown'] });
      Object.assign(window, { seenFrames: seen, stopLooking: () => observer.disconnect() });
    });
    return () =>
      page.evaluate(() => {
        const { seenFrames, stopLooking } = window as unknown as { seenFrames: Seen[]; stopLooking: () => void };
        stopLooking();
        return seenFrames;
      });
  }

  /** Waits until the picture of a frame, or of one after it, is on the bench. */
  async function passes(frame: number): Promise<void> {
    await expect
      .poll(async () => Number(await mainCanvas().getAttribute('data-shown')), { timeout: 20_000 })
      .toBeGreaterThanOrEqual(frame);
  }

  const steps = (frames: readonly number[]): number[] => frames.slice(1).map((frame, at) => frame - (frames[at] ?? 0));

  test('a run at an eighth shows every frame in order, and Esc stops it there', async () => {
    await page.getByLabel('Playback speed').selectOption({ label: '1/8x' });
    await goTo(100);
    const seen = await watch();
    await page.keyboard.press('r');
    await button('Stop').waitFor();
    await page.getByText('playing', { exact: true }).waitFor();
    await passes(106);
    await page.keyboard.press('Escape');
    await button('Play').waitFor();
    const at = Number(await mainCanvas().getAttribute('data-shown'));
    const frames = (await seen()).map(({ main }) => main);
    expect(frames.length).toBeGreaterThanOrEqual(7);
    expect(frames).toEqual(frames.map((_, place) => 100 + place));
    await page.getByText('Exact picture').waitFor();
    await page.waitForTimeout(400);
    expect(Number(await mainCanvas().getAttribute('data-shown'))).toBe(at);
  });

  test('a step, a press on the picture and the end of the clip stop it too', async () => {
    await page.keyboard.press('r');
    await button('Stop').waitFor();
    await page.keyboard.press('ArrowLeft');
    await button('Play').waitFor();
    await page.keyboard.press('r');
    await button('Stop').waitFor();
    const box = await stage().boundingBox();
    await page.mouse.click((box?.x ?? 0) + 60, (box?.y ?? 0) + 200);
    await button('Play').waitFor();
    const last = clipOf(now, 'down-the-line').frameCount - 1;
    await goTo(last - 2);
    await page.keyboard.press('r');
    await page.locator(`[role="application"] canvas[data-shown="${String(last)}"]`).waitFor();
    await button('Play').waitFor();
  });

  test('at full speed frames come in order, and the words say how many are passed over', async () => {
    await page.keyboard.press(']');
    await page.keyboard.press(']');
    await page.keyboard.press(']');
    expect(await page.getByLabel('Playback speed').inputValue()).toBe('1');
    await goTo(20);
    const seen = await watch();
    await page.keyboard.press('r');
    await expect
      .poll(async () => Number(await mainCanvas().getAttribute('data-shown')), { timeout: 20_000 })
      .toBeGreaterThan(120);
    const words = await page.getByText(/^playing/).innerText();
    await page.keyboard.press('r');
    const frames = (await seen()).map(({ main }) => main);
    expect(Math.min(...steps(frames))).toBeGreaterThan(0);
    const every = Number(/every (\d+)/.exec(words)?.[1] ?? 1);
    // Evenly: what the words say, or what they said before.
    expect(steps(frames).at(-2)).toBeLessThanOrEqual(every + 1);
  });

  test('a loop stays inside its span, which is shown over the strip and can be cleared', async () => {
    await goTo(150);
    await page.keyboard.press('s');
    await goTo(155);
    await page.keyboard.press('e');
    await page.getByRole('img', { name: 'Loop from frame 150 to frame 155' }).waitFor();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    const seen = await watch();
    await button('Play').click();
    await page.waitForTimeout(2500);
    await button('Stop').click();
    const frames = (await seen()).map(({ main }) => main).filter((frame) => frame < 156);
    expect(frames.length).toBeGreaterThan(8);
    expect([Math.min(...frames), Math.max(...frames)]).toEqual([150, 155]);
    expect(
      steps(frames)
        .filter((step) => step < 0)
        .every((step) => step === -5),
    ).toBe(true);
    await button('Loop over the whole clip again').click();
    await page.getByRole('img', { name: /^Loop from frame/ }).waitFor({ state: 'detached' });
    await page.keyboard.press('o');
  });

  test('both views: at impact of one the other shows its impact, and steps keep them locked', async () => {
    const [line, face] = [frameOf(now, 'down-the-line', 'impact'), frameOf(now, 'face-on', 'impact')];
    await goTo(line);
    await page.keyboard.press('v');
    await companionCanvas(new RegExp(`^Face on, frame ${String(face)} of`)).waitFor();
    await page.locator(`canvas[role="img"][data-shown="${String(face)}"][data-quality="sharp"]`).waitFor();
    expect(await seriousViolations(demo.program.app)).toEqual([]);
    for (const checkpoint of ['address', 'top', 'finish'] as const) {
      await goTo(frameOf(now, 'down-the-line', checkpoint));
      await companionCanvas(new RegExp(`frame ${String(frameOf(now, 'face-on', checkpoint))} of`)).waitFor();
    }
    await goTo(line);
    for (const key of ['ArrowRight', 'ArrowRight', 'ArrowLeft', 'ArrowLeft', 'ArrowLeft'])
      await page.keyboard.press(key);
    // The demo's cameras take as many frames a second, so that one step is one step near impact.
    await page.locator(`canvas[role="img"][data-shown="${String(face - 1)}"]`).waitFor();
  });

  test('a run with both waits for both pictures', async () => {
    const [line, face] = [frameOf(now, 'down-the-line', 'impact'), frameOf(now, 'face-on', 'impact')];
    await page.getByLabel('Playback speed').selectOption({ label: '1/8x' });
    await goTo(line);
    await page.locator(`canvas[role="img"][data-shown="${String(face)}"]`).waitFor();
    const seen = await watch();
    await page.keyboard.press('r');
    await passes(line + 5);
    await page.keyboard.press('Escape');
    const all = await seen();
    const shown = [...new Set(all.map(({ main }) => main))].slice(0, -1);
    expect(shown.length).toBeGreaterThanOrEqual(5);
    expect(shown).toEqual(shown.map((_, place) => line + place));
    // Before the run went on, the companion showed the frame that goes with each; the next picture of either may come first.
    const together = all.filter(({ main, companion }) => companion === main - line + face);
    expect(shown.filter((frame) => !together.some(({ main }) => main === frame))).toEqual([]);
    for (const { main, companion } of all) expect(Math.abs(companion - face - (main - line))).toBeLessThanOrEqual(1);
  });

  test('a press on the companion swaps them', async () => {
    const top = { line: frameOf(now, 'down-the-line', 'top'), face: frameOf(now, 'face-on', 'top') };
    await goTo(top.line);
    await page.locator(`canvas[role="img"][data-shown="${String(top.face)}"]`).waitFor();
    await button('Swap: mark on face on').click();
    await page.getByRole('application', { name: new RegExp(`frame ${String(top.face)} of .*exact`) }).waitFor();
    await companionCanvas(new RegExp(`^Down the line, frame ${String(top.line)} of`)).waitFor();
    await page.locator(`canvas[role="img"][data-shown="${String(top.line)}"]`).waitFor();
    await button('Swap: mark on down the line').click();
    await page.getByRole('application', { name: new RegExp(`frame ${String(top.line)} of .*exact`) }).waitFor();
  });

  test('the earlier swing stands beside this one, at the same checkpoint', async () => {
    await button('Then: the earlier swing beside this').click();
    await companionCanvas(
      new RegExp(`^Down the line, then, 14 April 2026, frame ${String(frameOf(then, 'down-the-line', 'top'))} of`),
    ).waitFor();
    await page.locator('canvas[role="img"][data-quality="sharp"]').waitFor();
    await button('Put down the line then away').click();
    expect(await page.locator('canvas[role="img"][data-shown]').count()).toBe(0);
  });

  test('without a name in common it says what to name', async () => {
    await clearNames(page, clipOf(now, 'down-the-line'));
    await page.reload();
    await demo.openSwing();
    await button('Open clip, Down the line').click();
    await button(/^Both views/).click();
    await page.getByText('Name impact in down the line, so that both show the same instant.').waitFor();
  });
});
