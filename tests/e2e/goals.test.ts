import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openBook } from '../../core/book/open-book.ts';
import { CATALOGUE } from '../../core/measure/catalogue/catalogue.ts';
import type { Goals } from '../../core/model/goals.ts';
import { parseGoalsFile } from '../../core/parse/goals.ts';
import { SHIPPED_GOALS } from '../../core/parse/shipped-goals.ts';
import { copyDemoBook } from '../support/demo-book.ts';
import { seriousViolations } from './accessibility.ts';
import { launchBaybook } from './launch.ts';
import type { RunningBaybook } from './launch.ts';
import { answerDialogs, ask } from './page-hands.ts';

/** The coach's own requests, from a limit that is typed to what the bench says of it, out as a file and back in. */
describe('the goals', () => {
  let folder: string;
  let program: RunningBaybook;
  let page: Page;

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'baybook-goals-'));
    await copyDemoBook(join(folder, 'book'), join(folder, 'settings', 'scrub-copies'));
    await start();
  });
  afterAll(async () => {
    await program.close();
    await rm(folder, { recursive: true, force: true });
  });

  async function start(): Promise<void> {
    const [bookFolder, userData] = [join(folder, 'book'), join(folder, 'settings')];
    program = await launchBaybook({ bookFolder, userData, width: 1280, height: 720 });
    page = program.window;
    page.setDefaultTimeout(20_000);
    await button(/^Swing 1 down the line/)
      .first()
      .click();
    await button('Open Top, Down the line, on the bench').click({ position: { x: 4, y: 4 } });
    await spineRow().waitFor();
  }

  const button = (name: string | RegExp): Locator => page.getByRole('button', { name });
  const field = (name: string): Locator => page.getByRole('textbox', { name, exact: true });
  const part = (name: string): Locator => page.getByRole('region', { name, exact: true });
  const keptGoals = async (): Promise<Goals> => {
    await page.getByText('All saved').waitFor();
    return (await ask(page, 'goals/read', null)).goals;
  };
  const spineRow = (): Locator => part('Readings at Top').getByRole('button', { name: /^Shoulders to spine/ });

  async function openGoals(): Promise<void> {
    await button('Goals: what is wanted').click();
    await page.getByRole('heading', { name: 'Goals', level: 2 }).waitFor();
  }
  async function backToBench(): Promise<void> {
    await page
      .getByRole('navigation', { name: 'Where you are' })
      .getByRole('button', { name: 'Down the line', exact: true })
      .click();
    await spineRow().waitFor();
  }
  /** As a hand does: into the field, all of it marked, typed over. */
  async function type(into: Locator, text: string): Promise<void> {
    await into.click();
    await page.keyboard.press('Control+a');
    if (text === '') await page.keyboard.press('Delete');
    else await page.keyboard.type(text);
  }
  /** Widens first, so that no limit passes the other on the way. */
  async function setLimits(from: string, to: string): Promise<void> {
    await type(field('From'), '');
    await type(field('To'), to);
    await type(field('From'), from);
  }

  test('tells on the bench what is missed and what that does, as soon as a limit is typed', async () => {
    expect(await spineRow().innerText()).toContain('Goal 90°: too close to call');
    await openGoals();
    await page.getByText('As they came with Baybook, not changed yet').waitFor();
    await button(/^Change Shoulders to spine/).click();
    await setLimits('100', '110');
    await type(field('Too low: what it does to the strike'), 'The club comes in too steep.');
    await page.getByText('Your own, kept in this book').waitFor();
    await backToBench();
    const missed = await spineRow().innerText();
    expect(missed).toMatch(/Goal 100° to 110°: too low\s+Your goals say: The club comes in too steep\./);

    await openGoals();
    await button(/^Change Shoulders to spine/).click();
    await setLimits('80', '100');
    await backToBench();
    const met = await spineRow().innerText();
    expect(met).toContain('Goal 80° to 100°: on target');
    expect(met).not.toContain('Your goals say');
    expect((await keptGoals()).wanted[0]).toMatchObject({ from: 80, to: 100 });
  });

  test('says in place what is wrong with a limit, and keeps the one before', async () => {
    await openGoals();
    await button(/^Change Shoulders to spine/).click();
    for (const [wrong, sentence] of [
      ['120', /^This lies above "to", 100/],
      ['about 90', /^Write a number/],
    ] as const) {
      await type(field('From'), wrong);
      await page.getByText(sentence).waitFor();
      expect(await field('From').getAttribute('aria-invalid')).toBe('true');
      expect((await keptGoals()).wanted[0]).toMatchObject({ from: 80, to: 100 });
    }
    await type(field('From'), '80');
    expect(await field('From').getAttribute('aria-invalid')).toBeNull();
    expect((await keptGoals()).wanted[0]).toMatchObject({ from: 80, to: 100 });
  });

  test('a range of a club holds for that club alone, in whichever case it is written', async () => {
    await page.getByRole('combobox', { name: 'Reading' }).first().selectOption('Shoulders to spine');
    await button('Add a goal').click();
    await setLimits('40', '50');
    await type(field('Clubs (none: every club)'), 'Driver');
    await backToBench();
    expect(await spineRow().innerText()).toContain('Goal 80° to 100°: on target');
    await openGoals();
    await button(/^Change Shoulders to spine, at every checkpoint; with driver/).click();
    await type(field('Clubs (none: every club)'), '7 IRON, Driver');
    await backToBench();
    expect(await spineRow().innerText()).toContain('Goal 40° to 50°: too high');
    await openGoals();
    await button(/^Remove Shoulders to spine, at every checkpoint; with 7 iron, driver/).click();
    await page.getByText('Shoulders to spine is taken out of your goals.').waitFor();
    await backToBench();
    expect(await spineRow().innerText()).toContain('Goal 80° to 100°: on target');
  });

  test('a chain is changed by keys and shown link by link; a press opens a link’s reading on its frame', async () => {
    await openGoals();
    // A limit below what the swing shows: the first link is seen.
    await button(/^Change Shoulders to spine/).click();
    await setLimits('70', '75');
    await button('Change the chain Flatter shoulder turn').focus();
    await page.keyboard.press('Enter');
    const chain = page.getByRole('group', { name: 'Change this chain' });
    await chain.getByRole('button', { name: /^Link 3, .*: earlier$/ }).focus();
    await page.keyboard.press('Enter');
    // The keyboard stays on the link that moved.
    const moved = chain.getByRole('button', { name: 'Link 2, Shoulder centre shift at impact: earlier' });
    await expect.poll(() => moved.evaluate((each) => each === document.activeElement)).toBe(true);
    for (const gone of ['Head shift at top', 'Arc centre shift at impact', 'Low point at impact']) {
      await chain.getByRole('button', { name: `Remove link 3, ${gone}` }).focus();
      await page.keyboard.press('Space');
    }
    await chain.getByRole('combobox', { name: 'Reading' }).last().selectOption('Club radius');
    await chain.getByRole('button', { name: 'Add a link' }).click();
    const link = chain.getByRole('listitem', { name: 'Link 3' });
    await link.getByRole('combobox', { name: 'Checkpoint' }).selectOption('Impact');
    await link.getByRole('combobox', { name: 'The miss is' }).selectOption('higher than last time');
    await type(link.getByRole('textbox', { name: 'In words' }), 'The radius is longer than last month.');
    expect((await keptGoals()).chains[0]?.links).toEqual([
      SHIPPED_GOALS.chains[0]?.links[0],
      SHIPPED_GOALS.chains[0]?.links[2],
      {
        ...{ reading: 'club-radius', aspect: 'value', view: 'face-on', checkpoint: 'impact', miss: 'moved-up' },
        words: 'The radius is longer than last month.',
      },
    ]);
    expect(await seriousViolations(program.app)).toEqual([]);

    await backToBench();
    const panel = part('Cause and effect');
    await panel.getByRole('button', { name: /^Cause and effect/ }).click();
    const links = panel.getByRole('region', { name: 'Flatter shoulder turn' }).getByRole('listitem');
    expect(
      (await links.allInnerTexts()).map(
        (text) => /^\S\s*(seen|not seen|too close to call|not measured)/.exec(text)?.[1],
      ),
    ).toEqual(['seen', expect.stringMatching(/too close to call|not seen/), 'not measured', undefined]);
    expect(await links.nth(2).innerText()).toContain('Choose an earlier swing that has this reading too.');
    expect(await links.nth(3).innerText()).toMatch(
      /not measured, all of it leads to:\s+The club meets the ground before/,
    );
    expect(await panel.innerText()).toMatch(
      /Seen for 1 of 3 links from its start\. Shoulders to spine at top is seen\./,
    );
    // Of the swing nothing is said to cause anything; only a ± is wide because of something.
    expect(await panel.innerText()).not.toMatch(/(?<!the ± is too wide, )because|causes/);

    const second = links.nth(1).getByRole('button');
    await second.focus();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Face on', level: 1 }).waitFor();
    expect(await second.getAttribute('aria-pressed')).toBe('true');
    expect(await second.evaluate((each) => each === document.activeElement)).toBe(true);
    const shown = part('Readings at Impact').getByRole('button', { name: /^Shoulder centre shift/ });
    expect(await shown.getAttribute('aria-pressed')).toBe('true');
    expect(await seriousViolations(program.app)).toEqual([]);
  });

  test('a tolerance decides what counts as no change', async () => {
    await openGoals();
    const within = field('Tolerance of Back incline, in degrees');
    await type(within, '0');
    await page.getByText('A tolerance is more than 0.').waitFor();
    await type(within, '40');
    const kept = (await keptGoals()).tolerances.find(({ reading }) => reading === 'back-incline');
    expect(kept?.within).toBe(40);
    await button(/^Remove the tolerance of Tempo/).click();
    await page.getByRole('combobox', { name: 'Reading' }).last().selectOption({ label: CATALOGUE.tempo.label });
    await button('Add a tolerance').click();
    expect((await keptGoals()).tolerances.at(-1)).toEqual({
      ...{ reading: 'tempo', aspect: 'value', unit: 'ratio', within: 1 },
    });
  });

  test('at twice the size of text nothing of the page is cut off', async () => {
    await page.evaluate(() => void (document.documentElement.dataset['text'] = '200'));
    await button('Change the chain Flatter shoulder turn').click();
    const cutOff = await page.getByRole('main').evaluate((each) =>
      [each, ...each.querySelectorAll('section, ul, ol, li, button, p, span, legend, label')]
        .filter((part) => part.scrollWidth > part.clientWidth + 1 && getComputedStyle(part).display !== 'inline')
        .filter((part) => part.textContent !== '')
        .map((part) => `${part.tagName} ${part.textContent}`),
    );
    expect(cutOff).toEqual([]);
    await page.evaluate(() => void (document.documentElement.dataset['text'] = '100'));
  });

  test('outlives the program, goes out as a file, back to the shipped one when that is confirmed, and in again', async () => {
    const own = await keptGoals();
    await program.close();
    await start();
    expect(await keptGoals()).toEqual(own);
    expect(await spineRow().innerText()).toMatch(/Goal 70° to 75°: too high/);

    await openGoals();
    const file = join(folder, 'mine.json');
    await answerDialogs(program.app, file);
    await button('Export').click();
    await page.getByText(`Wrote the goals to ${file}`).waitFor();
    expect(parseGoalsFile(JSON.parse(await readFile(file, 'utf8')))).toEqual(own);

    await button('Back to the shipped goals').click();
    await button('Keep it').click();
    expect(await keptGoals()).toEqual(own);
    await button('Back to the shipped goals').click();
    await page.getByRole('dialog').getByRole('button', { name: 'Back to the shipped goals' }).click();
    await page.getByText('As they came with Baybook, not changed yet').waitFor();
    expect(await keptGoals()).toEqual(SHIPPED_GOALS);
    await backToBench();
    expect(await spineRow().innerText()).toContain('Goal 90°: too close to call');

    await openGoals();
    await button('Import').click();
    await page.getByText(`This book has the goals of ${file} now`).waitFor();
    expect(await keptGoals()).toEqual(own);
    await backToBench();
    expect(await spineRow().innerText()).toMatch(/Goal 70° to 75°: too high/);
  });

  test('that is damaged in the book gives way to the shipped one, and says where and what', async () => {
    await program.close();
    const book = openBook(join(folder, 'book'));
    book.database.run('UPDATE pattern SET content = replace(content, \'"wanted"\', \'"wants"\')');
    book.close();
    await start();
    await page
      .getByRole('alert')
      .getByText(/^The goals kept in .*book\.sqlite cannot be read.*wanted is missing/)
      .waitFor();
    expect(await spineRow().innerText()).toContain('Goal 90°: too close to call');
    await openGoals();
    await page
      .getByRole('main')
      .getByText(/yours stay in the book as they are/)
      .waitFor();
    expect(await seriousViolations(program.app)).toEqual([]);
  });
});
