import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { answerDialogs } from './page-hands.ts';

/** What the program says of what was done is not in the way for longer than it takes to read, and goes with its screen. */
describe('messages that need no answer', () => {
  let demo: DemoProgram;
  let page: Page;

  beforeAll(async () => {
    demo = await openDemoProgram('messages');
    page = demo.page;
    await demo.openSwing();
  });
  afterAll(() => demo.close());

  const button = (name: string | RegExp): Locator => page.getByRole('button', { name });
  async function saveStills(): Promise<Locator> {
    const folder = join(demo.folder, 'stills');
    await mkdir(folder, { recursive: true });
    await answerDialogs(demo.program.app, folder);
    await button('Save stills').click();
    const said = page.getByRole('status').getByText(/^Saved \d+ stills in /);
    await said.waitFor({ timeout: 120_000 });
    return said;
  }

  test('what was saved on the sheet is not said on the bench, nor on the sheet again', async () => {
    const said = await saveStills();
    if (process.env['BAYBOOK_PICTURES'] !== undefined)
      await demo.program.screenshot(`${process.env['BAYBOOK_PICTURES']}/message-on-sheet.png`);
    await demo.openCell('Top');
    expect(await said.count()).toBe(0);
    await button(/^Lesson sheet/).click();
    await button('Save stills').waitFor();
    expect(await said.count()).toBe(0);
  });

  test('goes by itself, but not under the pointer, and not while a button in it has the focus', async () => {
    await page.evaluate(() => document.body.focus());
    await answerDialogs(demo.program.app, join(demo.folder, 'swing.json'));
    await button('Export swing').click();
    const said = page.getByRole('status').getByText(/^Wrote the swing to /);
    await said.waitFor();
    await said.hover();
    // Longer than it stays by itself: 5 s, and 90 ms a letter.
    const life = 5000 + 90 * (await said.innerText()).length;
    await page.waitForTimeout(life + 1500);
    expect(await said.count()).toBe(1);
    const close = page.getByRole('status').getByRole('button', { name: 'Close' });
    await close.focus();
    await page.mouse.move(300, 300);
    await page.waitForTimeout(life + 1500);
    expect(await said.count()).toBe(1);
    await close.evaluate((each) => each instanceof HTMLElement && each.blur());
    await said.waitFor({ state: 'hidden', timeout: life + 15_000 });
  });
});
