import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { BookSwing } from '../../core/model/book.ts';
import { sized } from '../support/sized.ts';
import { openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';

/** What was changed can be taken back on another day, and after a crash, to the last bit. */
describe('undo and redo', () => {
  let demo: DemoProgram;
  let page: Page;
  /** The book before each of the edits. */
  const stages: BookSwing[] = [];

  beforeAll(async () => {
    demo = await openDemoProgram('undo');
    await openSheet();
  });
  afterAll(() => demo.close());

  async function openSheet(): Promise<void> {
    page = demo.page;
    await demo.openSwing();
    await button('Open Top, Down the line, on the bench').waitFor();
  }

  const button = (name: string | RegExp) => page.getByRole('button', { name });
  const readSwing = (): Promise<BookSwing> => demo.readSwing();
  const openTop = (): Promise<void> => demo.openCell('Top');

  test('takes back marks, names and rates, and says what it will take back', async () => {
    await openTop();
    const keep = async () => void stages.push(await readSwing());
    await keep();
    const box = await page.getByRole('application').boundingBox();
    const [x, y] = [(box?.x ?? 0) + 90, (box?.y ?? 0) + 120];
    await page.keyboard.press('l');
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 80, y + 33, { steps: 3 });
    await page.mouse.up();
    await button(/^Undo: line drawn on frame/).waitFor();
    await keep();
    await page.keyboard.press('Control+Shift+ArrowRight');
    await keep();
    await page.keyboard.press('Delete');
    await button(/^Undo: line deleted on frame/).waitFor();
    await keep();
    await page.keyboard.press('.');
    await page.keyboard.press('2');
    await button(/^Undo: frame \d+ named takeaway/).waitFor();
    await keep();
    await page.keyboard.press('Control+z');
    await button(/^Redo: frame \d+ named takeaway/).waitFor();
    expect(await readSwing()).toEqual(stages.at(-2));
    await page.keyboard.press('Control+Shift+z');
    expect(await readSwing()).toEqual(stages.at(-1));
  });

  test('goes on after the program was killed, back to the very beginning and forward again', async () => {
    const pid = demo.program.app.process().pid ?? 0;
    process.kill(pid, 'SIGKILL');
    await demo.restart();
    await openSheet();
    for (const stage of stages.slice(0, -1).toReversed()) {
      await page.keyboard.press('Control+z');
      expect(await readSwing()).toEqual(stage);
    }
    expect(await button(/^Undo/).isDisabled()).toBe(true);
    for (const stage of stages.slice(1)) {
      await button(/^Redo/).click();
      expect(await readSwing()).toEqual(stage);
    }
    expect(await button(/^Redo/).isDisabled()).toBe(true);
  });

  test('is one for all swings of a lesson: an edit of another swing opens that one', async () => {
    await button('Students').click();
    await button('Add a swing').first().click();
    await button('Add a clip, down the line').waitFor();
    await button(/^Undo: .*, in another swing/).click();
    await button('Open Top, Down the line, on the bench').waitFor();
    expect(await readSwing()).toEqual(stages.at(-2));
    await button(/^Redo/).click();
    expect(await readSwing()).toEqual(stages.at(-1));
  });

  const many = sized(30, 60);
  test(`${String(many)} in a row are taken back in order`, async () => {
    await openTop();
    const before = await readSwing();
    await page.keyboard.press('End');
    for (let turn = 0; turn < many; turn += 1) {
      await page.keyboard.press('8');
      await page.keyboard.press(turn % 2 === 0 ? 'ArrowLeft' : 'ArrowRight');
    }
    await page.getByText('All saved').waitFor();
    for (let turn = 0; turn < many; turn += 1) await page.keyboard.press('Control+z');
    expect(await readSwing()).toEqual(before);
  });
});
