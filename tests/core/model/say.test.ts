import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { expect, test } from 'vitest';
import { languageOf } from '../../../core/model/languages.ts';
import { lowered, say } from '../../../core/model/say.ts';

const run = promisify(execFile);

/** What a program says that speaks another language: one is settled for a whole process. */
async function saidIn(language: string, code: string): Promise<unknown> {
  const say = new URL('../../../core/model/say.ts', import.meta.url).href;
  const days = new URL('../../../core/model/day-in-words.ts', import.meta.url).href;
  const format = new URL('../../../core/measure/words/format.ts', import.meta.url).href;
  const program = `
    const { say, lowered } = await import('${say}');
    const { dayInWords, writeDaysAs } = await import('${days}');
    const { write, formatTyped } = await import('${format}');
    process.stdout.write(JSON.stringify(${code}));`;
  const env = { ...process.env, BAYBOOK_LANGUAGE: language };
  return JSON.parse((await run(process.execPath, ['--input-type=module', '-e', program], { env })).stdout);
}

test('English is said as it is written, numbers as they are', () => {
  expect(say`Frame ${1.5} of ${'two'}, ${'{0}'}`).toBe('Frame 1.5 of two, {0}');
  expect(lowered('Lead arm level')).toBe('lead arm level');
});

test('a German process says a sentence in German, and one that has no translation in English', async () => {
  expect(await saidIn('de', '[say`Settings`, say`No such ${"sentence"} here, ${1.5}`]')).toEqual([
    'Einstellungen',
    'No such sentence here, 1,5',
  ]);
});

test('days and decimals go by the language; what an English system tells of days does not count in German', async () => {
  expect(await saidIn('de', '[dayInWords("2026-05-12"), (writeDaysAs("en-US"), dayInWords("2026-05-12"))]')).toEqual([
    '12. Mai 2026',
    '12. Mai 2026',
  ]);
  expect(
    await saidIn(
      'de',
      '[write(-3.42, 1.2, "cm", false).text, formatTyped(2.5, "deg"), formatTyped(20, "deg"), write(1.04, 0, "deg", true, 1).value]',
    ),
  ).toEqual(['−3,4 ± 1,2 cm', '2,5°', '20°', '+1,0']);
  expect(await saidIn('en', '[dayInWords("2026-05-12"), write(-3.42, 1.2, "cm", false).text]')).toEqual([
    '12 May 2026',
    '−3.4 ± 1.2 cm',
  ]);
});

test('in brackets every sentence shows itself, also within another one', async () => {
  expect(await saidIn('brackets', '[say`The ${say`clip`} is gone.`]')).toEqual(['⟦The ⟦clip⟧ is gone.⟧']);
});

test('the choice comes first, then the first language of the system that is spoken, then English', () => {
  expect(languageOf('en', ['de-AT'])).toBe('en');
  expect(languageOf('system', ['fr-CH', 'de-CH', 'en'])).toBe('de');
  expect(languageOf(undefined, ['fr'])).toBe('en');
  expect(languageOf('klingon', ['de_DE'])).toBe('de');
});
