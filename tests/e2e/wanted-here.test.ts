import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { OWN_SOURCE } from '../../core/measure/goals/goals-source.ts';
import type { Goals } from '../../core/model/goals.ts';
import { SHIPPED_GOALS } from '../../core/parse/shipped-goals.ts';
import { seriousViolations } from './accessibility.ts';
import { openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { ask } from './page-hands.ts';

/** What is wanted of a reading, changed and said right beside it. */
describe('the wanted range of an opened reading', () => {
  let demo: DemoProgram;
  let page: Page;

  beforeAll(async () => {
    demo = await openDemoProgram('wanted');
    page = demo.page;
    await demo.openSwing();
    await demo.openCell('Top');
  });
  afterAll(() => demo.close());

  const top = (): Locator => page.getByRole('region', { name: 'Readings at Top', exact: true });
  const reading = (name: RegExp): Locator => top().getByRole('button', { name });
  const spine = (): Locator => reading(/^Shoulders to spine/);
  const row = (name: RegExp): Locator => reading(name).locator('xpath=..');
  /** A reading that was open stays so while the goals' page is looked at. */
  async function open(name: RegExp): Promise<void> {
    if ((await reading(name).getAttribute('aria-pressed')) !== 'true') await reading(name).click();
  }
  const editor = (name: string): Locator => page.getByRole('group', { name: `Goal for ${name}` });
  const spineEditor = (): Locator => editor('Shoulders to spine at top, down the line');
  const field = (name: string): Locator => page.getByRole('textbox', { name, exact: true });
  const button = (name: string | RegExp): Locator => page.getByRole('button', { name });
  const hasFocus = (each: Locator): Promise<boolean> => each.evaluate((element) => element === document.activeElement);
  const kept = async (): Promise<Goals> => {
    await page.getByText('All saved').waitFor();
    return (await ask(page, 'goals/read', null)).goals;
  };
  const backToBench = (): Promise<void> =>
    page
      .getByRole('navigation', { name: 'Where you are' })
      .getByRole('button', { name: 'Down the line', exact: true })
      .click();

  test('is changed by keys alone: the row is judged anew at once, and the source is the coach’s own', async () => {
    expect(await spine().innerText()).toContain('Goal 90°: too close to call');
    await spine().focus();
    await page.keyboard.press('Enter');
    await row(/^Shoulders to spine/)
      .getByText(/Where this is from: common practice/)
      .waitFor();
    const change = button('Change the goal for Shoulders to spine');
    await change.focus();
    await page.keyboard.press('Enter');
    // The first limit has the keyboard, all of it marked.
    await spineEditor().waitFor();
    expect(await hasFocus(field('From'))).toBe(true);
    await spineEditor().getByText('At lead arm level, top; every club.').waitFor();
    await page.keyboard.press('Tab');
    expect(await hasFocus(field('To'))).toBe(true);
    await page.keyboard.press('Control+a');
    await page.keyboard.type('100');
    expect(await spine().innerText()).toMatch(/Goal 90° to 100°/);
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('80');
    expect(await spine().innerText()).toContain('Goal 80° to 100°: on target');
    await row(/^Shoulders to spine/)
      .getByText(`Where this is from: ${OWN_SOURCE}.`)
      .waitFor();
    expect(await row(/^Shoulders to spine/).innerText()).not.toContain('common practice');
    expect(await seriousViolations(demo.program.app)).toEqual([]);
    expect((await kept()).wanted[0]).toEqual({ ...SHIPPED_GOALS.wanted[0], from: 80, to: 100, basis: OWN_SOURCE });

    // Esc closes the limits and nothing else.
    await page.keyboard.press('Escape');
    await spineEditor().waitFor({ state: 'detached' });
    expect(await hasFocus(change)).toBe(true);
    expect(await spine().getAttribute('aria-pressed')).toBe('true');
  });

  test('stands so on the page of goals too, and goes back with its source from the message', async () => {
    await page.getByRole('status').getByText('Goal changed for Shoulders to spine.').waitFor();
    await button('Goals: what is wanted').click();
    const ranges = page
      .getByRole('region', { name: 'Goals for readings' })
      .getByRole('region', { name: 'Shoulders to spine' });
    expect(await ranges.innerText()).toContain('Goal 80° to 100°');
    expect(await ranges.innerText()).toContain(`Where this is from: ${OWN_SOURCE}.`);
    await button('Put it back').click();
    await ranges.getByText('Goal 90°').waitFor();
    expect(await ranges.innerText()).toContain('Where this is from: common practice, no published source.');
    expect((await kept()).wanted).toEqual(SHIPPED_GOALS.wanted);
    await backToBench();
    expect(await spine().innerText()).toContain('Goal 90°: too close to call');
  });

  test('with the shipped limits typed in again has the shipped source again; a source that is typed stays', async () => {
    await open(/^Shoulders to spine/);
    await button('Change the goal for Shoulders to spine').click();
    await field('From').fill('70');
    await row(/^Shoulders to spine/)
      .getByText(`Where this is from: ${OWN_SOURCE}.`)
      .waitFor();
    await field('From').fill('95');
    await page.getByText(/^This lies above "to", 90/).waitFor();
    await field('From').fill('90');
    await row(/^Shoulders to spine/)
      .getByText(/Where this is from: common practice/)
      .waitFor();
    expect((await kept()).wanted).toEqual(SHIPPED_GOALS.wanted);
    await button('Close the goal for Shoulders to spine').click();

    await button('Goals: what is wanted').click();
    await button(/^Change Shoulders to spine/).click();
    await field('To').fill('92');
    await page.getByRole('textbox', { name: 'Where this is from' }).fill('The notes of a course');
    await field('To').fill('93');
    await backToBench();
    await open(/^Shoulders to spine/);
    await row(/^Shoulders to spine/)
      .getByText('Where this is from: The notes of a course.')
      .waitFor();
    // Another reading opened on top of open limits: they close, and what was changed can still be taken back.
    await button('Change the goal for Shoulders to spine').click();
    await field('To').fill('94');
    await reading(/^Back incline/).click();
    await button('Put it back').click();
    expect((await kept()).wanted[0]).toMatchObject({ from: 90, to: 93, basis: 'The notes of a course' });
  });

  test('that the goals have not is said there, for this checkpoint and view, and can be taken out', async () => {
    const before = await kept();
    if ((await reading(/^Back incline/).getAttribute('aria-pressed')) !== 'true')
      await reading(/^Back incline/).click();
    expect(await reading(/^Back incline/).innerText()).not.toContain('Wanted');
    const say = button('Add a goal for Back incline');
    await say.click();
    await editor('Back incline at top, down the line').getByText('At top; down the line; every club.').waitFor();
    // Nothing said, nothing kept.
    await page.keyboard.press('Escape');
    expect(await hasFocus(say)).toBe(true);
    expect(await kept()).toEqual(before);
    await say.click();
    await page.keyboard.type('0');
    await page.keyboard.press('Tab');
    await page.keyboard.type('20');
    expect(await reading(/^Back incline/).innerText()).toContain('Goal 0° to 20°: too high');
    expect((await kept()).wanted).toEqual([
      ...before.wanted,
      {
        ...{ reading: 'back-incline', aspect: 'value', views: ['down-the-line'], checkpoints: ['top'], clubs: [] },
        ...{ from: 0, to: 20, unit: 'deg', words: '', basis: OWN_SOURCE, miss: { low: '', high: '' } },
      },
    ]);
    await button('Close the goal for Back incline').click();
    await button('Take it out').click();
    await say.waitFor();
    expect(await kept()).toEqual(before);
  });

  test('is not cut off at twice the size of text', async () => {
    await page.evaluate(() => void (document.documentElement.dataset['text'] = '200'));
    await button('Add a goal for Back incline').click();
    const cutOff = await page
      .getByRole('complementary')
      .evaluate((side) =>
        [side, ...side.querySelectorAll('section, ul, li, button, span, p, label, input, [role="group"]')]
          .filter((part) => part.scrollWidth > part.clientWidth + 1 && getComputedStyle(part).display !== 'inline')
          .map((part) => `${part.tagName} ${part.textContent}`),
      );
    expect(cutOff).toEqual([]);
    expect(await hasFocus(field('From'))).toBe(true);
    await page.evaluate(() => void (document.documentElement.dataset['text'] = '100'));
  });
});
