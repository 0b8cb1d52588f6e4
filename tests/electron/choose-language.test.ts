import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { chooseLanguage } from '../../electron/choose-language.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const german = (): readonly string[] => ['de-DE'];

test('the variable comes before the settings, the settings before the system', async () => {
  const path = join(temporaryFolder(), 'settings.json');
  expect(chooseLanguage({}, path, german)).toBe('de');
  await writeFile(path, '\uFEFF{ "language": "en" }');
  expect(chooseLanguage({}, path, german)).toBe('en');
  expect(chooseLanguage({ BAYBOOK_LANGUAGE: 'de' }, path, () => [])).toBe('de');
  expect(chooseLanguage({ BAYBOOK_LANGUAGE: 'brackets' }, path, german)).toBe('brackets');
  expect(chooseLanguage({ BAYBOOK_LANGUAGE: '' }, path, german)).toBe('en');
});

test('settings that are damaged leave it to the system', async () => {
  const path = join(temporaryFolder(), 'settings.json');
  for (const content of ['{ "language": ', '[]', '{ "language": 7 }', 'null']) {
    await writeFile(path, content);
    expect(chooseLanguage({}, path, german)).toBe('de');
  }
});
