import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { GERMAN } from '../../core/model/german.ts';
import { openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { ask } from './page-hands.ts';

/** A sentence of the program in the language that is looked at, from its key and what is put in. */
type Speak = (key: string, ...values: readonly string[]) => string;

const filled = (text: string, values: readonly string[]): string =>
  text.replaceAll(/\{(\d+)\}/g, (_, place: string) => values[Number(place)] ?? '');
const german: Speak = (key, ...values) => filled(GERMAN[key] ?? key, values);
const bracketed: Speak = (key, ...values) => `⟦${filled(key, values)}⟧`;

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');

interface Visit {
  readonly demo: DemoProgram;
  readonly speak: Speak;
  /** Called on every page and dialog, once it stands. */
  readonly look: (name: string) => Promise<void>;
}

/** Through every room of the window and every page of help, on the demo's later swing. */
async function walk({ demo, speak, look }: Visit): Promise<void> {
  const page = demo.page;
  const button = (name: string): Locator => page.getByRole('button', { name, exact: true });
  const onThe = (view: string, checkpoint: string): string =>
    speak('Open {0}, {1}, on the bench', speak(checkpoint), speak(view));

  await look('students');
  await button(speak('Add a student')).first().click();
  await look('add-student');
  await page.keyboard.press('Escape');
  await page
    .getByRole('button', { name: /^⟦?Swing 1/ })
    .first()
    .click({ timeout: 90_000 });
  await button(onThe('Down the line', 'Top')).waitFor({ timeout: 90_000 });
  await look('sheet');
  await page.getByLabel(speak('Compare with an earlier swing (then)')).first().selectOption({ index: 1 });
  await button(speak('See then and now')).click();
  await page.getByRole('heading', { name: speak('Then and now') }).waitFor();
  await look('compare');
  await page.keyboard.press('Escape');
  await button(speak('Lesson page')).click();
  await page.getByRole('heading', { name: speak('What you found') }).waitFor();
  await look('lesson-page');
  await page.keyboard.press('Escape');

  await button(onThe('Down the line', 'Top')).click({ position: { x: 4, y: 4 } });
  await page.getByText(speak('Exact picture'), { exact: true }).waitFor({ timeout: 90_000 });
  await look('bench');
  // Points in hand, then a line: the panels beside the picture.
  await page.keyboard.press('p');
  await look('points');
  await page.keyboard.press('l');
  await look('line');
  await page.keyboard.press('Escape');
  await button(speak('Talk-through')).click();
  await page.getByRole('heading', { name: speak('Talk your student through the swing') }).waitFor();
  await look('talk');
  await button(speak('Talk-through')).click();
  await button(speak('Goals: what is wanted')).click();
  await page.getByRole('heading', { name: speak('Tolerances') }).waitFor();
  await look('goals');
  await button(speak('Goals: what is wanted')).click();
  await button(speak('Repeat check')).click();
  await page.getByRole('heading', { name: speak('How steady is your hand?') }).waitFor();
  await look('repeat');
  await button(speak('Begin')).click();
  await page.getByText(speak('Points placed'), { exact: true }).or(page.getByRole('progressbar')).first().waitFor();
  await look('placing');
  await page.keyboard.press('Escape');
  await button(speak('Leave and drop it'))
    .or(page.getByRole('heading', { name: speak('How steady is your hand?') }))
    .first()
    .waitFor();
  if (await button(speak('Leave and drop it')).isVisible()) await button(speak('Leave and drop it')).click();
  if (await page.getByRole('heading', { name: speak('How steady is your hand?') }).isVisible())
    await page.keyboard.press('Escape');

  await button(speak('Settings')).click();
  await page.getByRole('dialog').waitFor();
  await look('settings');
  await button(speak('Done')).click();
  await button(speak('Help')).click();
  for (const part of ['Keys', 'Filming guide', 'Cautions', 'Support', 'Glossary']) {
    await page
      .getByRole('dialog')
      .getByRole('button', { name: speak(part), exact: true })
      .click();
    await look(`help-${part.toLowerCase().replace(' ', '-')}`);
  }
  await button(speak('Done')).click();
}

/** All that is shown or read out now, each with the element that says it. */
function shown(page: Page): Promise<readonly { readonly text: string; readonly by: string }[]> {
  return page.evaluate(() => {
    const found: { text: string; by: string }[] = [];
    for (const element of document.body.querySelectorAll('*')) {
      if (element.closest('script, style, datalist') !== null || !element.checkVisibility()) continue;
      const by = `<${element.tagName.toLowerCase()} class="${element.getAttribute('class') ?? ''}">`;
      // A sentence round a key or a link lies in several pieces.
      const pieces = [...element.childNodes].filter(({ nodeType }) => nodeType === Node.TEXT_NODE);
      if (pieces.length > 0) found.push({ text: pieces.map(({ textContent }) => textContent ?? '').join(''), by });
      for (const name of ['aria-label', 'title', 'placeholder', 'alt', 'aria-valuetext', 'aria-description'])
        if (element.hasAttribute(name)) found.push({ text: element.getAttribute(name) ?? '', by: `${by} ${name}` });
      if (element instanceof HTMLInputElement && element.type === 'text') found.push({ text: element.value, by });
    }
    return found;
  });
}

/** A text without all that stands in brackets. */
function outside(text: string): string {
  let depth = 0;
  return [...text]
    .filter((sign) => {
      if (sign === '⟦') depth += 1;
      if (sign === '⟧') depth -= 1;
      return depth === 0 && sign !== '⟧';
    })
    .join('');
}

/** Units, formats, names of programs and days, as the system writes them, stand by themselves. */
const SAME_EVERYWHERE =
  /\b(?:px|cm|mm|m|s|kB|MB|GB|mph|PNG|JPEG|PDF|Baybook|Electron|ffmpeg|Letter|English|Deutsch|HDR|deb12u1|book|Dismiss)\b|\d+ [A-Z][a-z]+ \d{4}/g;

/** Every text that somebody typed, or that lies in the shipped goals: what is never translated. */
async function coachTexts(demo: DemoProgram): Promise<readonly string[]> {
  const texts = new Set<string>();
  const take = (value: unknown): void => {
    if (typeof value === 'string') texts.add(value.trim());
    else if (value !== null && typeof value === 'object') Object.values(value).forEach(take);
  };
  take(await ask(demo.page, 'student/list', null));
  for (const id of Object.values(demo.ids)) take(await ask(demo.page, 'swing/open', { id }));
  take(await ask(demo.page, 'goals/read', null));
  take(await ask(demo.page, 'library/read', null));
  take(JSON.parse(await readFile(join(import.meta.dirname, '..', '..', 'resources', 'goals.json'), 'utf8')));
  return [...texts, demo.folder]
    .filter((text) => /\p{L}{2}/u.test(text))
    .toSorted((one, other) => other.length - one.length);
}

const inPictures = async (demo: DemoProgram, language: string, name: string): Promise<void> => {
  const folder = process.env['BAYBOOK_PICTURES'];
  if (folder !== undefined) await demo.program.screenshot(join(folder, `${language}-${name}.png`));
};

/** Twenty pages, and where it is not there yet the demo: it takes a minute to paint. */
const LONG = { timeout: 420_000 };

describe('the window in another language', () => {
  it(
    'says nothing past the mechanism: with every sentence in brackets, no word stands outside but the coach’s',
    LONG,
    async () => {
      const demo = await openDemoProgram('brackets', { environment: { BAYBOOK_LANGUAGE: 'brackets' } });
      try {
        const theirs = new RegExp((await coachTexts(demo)).map(escaped).join('|'), 'g');
        const past = new Set<string>();
        let looked = 0;
        await walk({
          demo,
          speak: bracketed,
          async look(name) {
            for (const { text, by } of await shown(demo.page)) {
              looked += 1;
              const plain = outside(text.replaceAll(/[\u2066-\u2069]/g, '').replaceAll(theirs, ''));
              if (/\p{L}{2}/u.test(plain.replaceAll(SAME_EVERYWHERE, ''))) past.add(`${name}: ${plain.trim()} ${by}`);
            }
            await inPictures(demo, 'brackets', name);
          },
        });
        expect([...past]).toEqual([]);
        // It looked at all of them.
        expect(looked).toBeGreaterThan(2000);
      } finally {
        await demo.close();
      }
    },
  );

  it('is German throughout, and nothing is cut that English leaves whole', LONG, async () => {
    const demo = await openDemoProgram('german', { environment: { BAYBOOK_LANGUAGE: 'de' } });
    try {
      const cut: string[] = [];
      const english = new Set<string>();
      const theirs = new Set(await coachTexts(demo));
      // What is another word in German. "Dismiss" is of the controls' own library.
      const keys = new Set([...Object.keys(GERMAN).filter((key) => GERMAN[key] !== key && key.length > 2), 'Dismiss']);
      await walk({
        demo,
        speak: german,
        async look(name) {
          for (const { text, by } of await shown(demo.page))
            if (keys.has(text.trim()) && !theirs.has(text.trim())) english.add(`${name}: ${text} ${by}`);
          cut.push(...(await cutTexts(demo.page)).map((text) => `${name}: ${text}`));
          await inPictures(demo, 'de', name);
        },
      });
      expect(await demo.page.evaluate(() => document.documentElement.lang)).toBe('de-DE');
      expect([...english]).toEqual([]);
      expect(cut).toEqual([]);
    } finally {
      await demo.close();
    }
  });
});

/** Labels wider than what shows of them, where nothing says so: buttons, headings and cells that hold text alone. */
function cutTexts(page: Page): Promise<readonly string[]> {
  return page.evaluate(() =>
    [...document.body.querySelectorAll('button, h1, h2, h3, label, th, td, summary, kbd, legend')].flatMap(
      (element) => {
        if (!(element instanceof HTMLElement) || !element.checkVisibility()) return [];
        const { overflowX, textOverflow } = getComputedStyle(element);
        const isCut =
          element.scrollWidth > element.clientWidth + 1 && overflowX !== 'visible' && textOverflow !== 'ellipsis';
        const box = element.getBoundingClientRect();
        const isOut = box.right > window.innerWidth + 1 && element.closest('[role="dialog"], main') === null;
        return isCut || isOut ? [element.innerText.trim()] : [];
      },
    ),
  );
}
