import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { simpleParser } from 'mailparser';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { EMPTY_PAGE } from '../../core/model/lesson-page.ts';
import { seriousViolations } from './accessibility.ts';
import { openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { answerDialogs } from './page-hands.ts';

/** From a marked swing to a mail draft, by the lesson page; what is written there is kept and can be taken back. */
describe('the lesson page', () => {
  let demo: DemoProgram;
  let page: Page;

  beforeAll(async () => {
    demo = await openDemoProgram('lesson-page');
    page = demo.page;
  });
  afterAll(() => demo.close());

  const button = (name: string | RegExp): Locator => page.getByRole('button', { name });
  const thought = (number: number): Locator => page.getByLabel(`Key thought ${String(number)}`);
  const picture = async (name: string): Promise<void> => {
    const folder = process.env['BAYBOOK_PICTURES'];
    if (folder !== undefined) await demo.program.screenshot(join(folder, `${name}.png`));
  };

  test('takes no more than 12 inputs to a mail draft with stills, PDF and two key thoughts', async () => {
    const file = join(demo.folder, 'lesson.eml');
    await demo.openSwing();
    await page.getByLabel(/Compare with an earlier swing/).selectOption({ index: 1 });
    await answerDialogs(demo.program.app, file);
    let inputs = 0;
    const input = async (does: Promise<unknown>): Promise<void> => {
      inputs += 1;
      await does;
    };
    await input(button('Lesson page').click());
    const asked = page.getByRole('region', { name: 'Asked for last time' });
    await expect.poll(() => asked.innerText(), { timeout: 60_000 }).toMatch(/Shoulders to spine.*: changed/);
    await picture('lesson-page-empty');
    await input(page.getByLabel('Add another reading').selectOption({ index: 1 }));
    await input(page.getByLabel('In your words').fill('The back leans as it should.'));
    // A press into a field and what is typed there count as two.
    await input(thought(1).click());
    await input(page.keyboard.type('Turn, then swing.'));
    await input(page.keyboard.press('Tab'));
    await input(page.keyboard.type('Stand tall.'));
    await input(button('Save mail draft').click());
    // The system's own dialog, which is answered above.
    await input(page.getByText(/^Saved .*lesson\.eml\./).waitFor({ timeout: 120_000 }));
    expect(inputs).toBeLessThanOrEqual(12);
    await picture('lesson-page-written');

    const mail = await simpleParser(await readFile(file), { skipImageLinks: true });
    expect(mail.headers.get('x-unsent')).toBe('1');
    for (const said of [
      'Hello Robin',
      'The back leans as it should.',
      'Turn, then swing.',
      'Stand tall.',
      'stop and see a doctor',
    ])
      expect(mail.text).toContain(said);
    const kinds = mail.attachments.map(({ contentType }) => contentType);
    expect(kinds).toContain('application/pdf');
    expect(kinds.filter((kind) => kind === 'image/jpeg').length).toBeGreaterThan(0);
  });

  test('is kept with the lesson, and typing is taken back a field at a time', async () => {
    const kept = async () => (await demo.readSwing()).page;
    expect((await kept()).keyThoughts).toEqual(['Turn, then swing.', 'Stand tall.']);
    await page.getByRole('heading', { name: 'Key thoughts' }).click();
    await button(/^Undo: lesson page changed/).click();
    // On a slow machine what is typed may be more than one edit; never more than its letters.
    await expect.poll(async () => (await kept()).keyThoughts[1]).not.toBe('Stand tall.');
    expect((await kept()).keyThoughts[0]).toBe('Turn, then swing.');
    for (let step = 0; step < 60 && JSON.stringify(await kept()) !== JSON.stringify(EMPTY_PAGE); step += 1)
      await button(/^Undo: lesson page changed/).click();
    await expect.poll(kept).toEqual(EMPTY_PAGE);
  });

  test('can be read by whoever hears it', async () => {
    expect(await seriousViolations(demo.program.app)).toEqual([]);
  });

  test('a drill is written once, goes on the page, and is left by Esc', async () => {
    await button('Write a drill').click();
    await page.getByLabel('Title').fill('Feet together');
    await page.getByLabel('Steps, one a line').fill('Feet side by side.\nSwing to half.');
    await picture('lesson-page-drill');
    await button('Keep and put on the page').click();
    await expect
      .poll(async () => (await demo.readSwing()).page.drills.map(({ steps }) => steps))
      .toEqual([['Feet side by side.', 'Swing to half.']]);
    await page.getByRole('heading', { name: 'Drills' }).click();
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Lesson page', exact: true }).waitFor();
  });
});
