import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { USUAL_SETTINGS } from '../../core/model/settings.ts';
import { readSettings, writeSettings } from '../../electron/settings-file.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

test('settings come back as they were written; without a file they are the usual ones', async () => {
  const path = join(temporaryFolder(), 'deeper', 'settings.json');
  expect(await readSettings(path)).toEqual({ settings: USUAL_SETTINGS, trouble: null });
  const chosen = {
    keys: { fit: ['g'], undo: [] },
    textSize: 150,
    appearance: 'dark',
    units: 'imperial',
    enlargedLines: 80,
  } as const;
  await writeSettings(path, chosen);
  expect(await readSettings(path)).toEqual({ settings: chosen, trouble: null });
  expect(readdirSync(join(path, '..'))).toEqual(['settings.json']);
});

test('a field of an earlier or a later program does no harm', async () => {
  const path = join(temporaryFolder(), 'settings.json');
  writeFileSync(path, '{"textSize": 125, "somethingNew": true}');
  expect(await readSettings(path)).toEqual({ settings: { ...USUAL_SETTINGS, textSize: 125 }, trouble: null });
});

test('a mark of how text is stored, which some editors put before it, does no harm', async () => {
  const path = join(temporaryFolder(), 'settings.json');
  writeFileSync(path, '\uFEFF{"textSize": 125}');
  expect(await readSettings(path)).toEqual({ settings: { ...USUAL_SETTINGS, textSize: 125 }, trouble: null });
});

test('a wrong field costs itself and no other; the file as it was is kept, and it is said once', async () => {
  const path = join(temporaryFolder(), 'settings.json');
  const text = '{"keys": {"fit": "g", "undo": ["z"]}, "textSize": 7, "appearance": "dark"}';
  writeFileSync(path, text);
  const settings = { ...USUAL_SETTINGS, keys: { undo: ['z'] }, appearance: 'dark' };
  const first = await readSettings(path);
  expect(first.settings).toEqual(settings);
  expect(first.trouble).toMatch(/as usual: the keys of “fit”, the size of text\. .*unreadable\.$/);
  expect(readFileSync(`${path}.unreadable`, 'utf8')).toBe(text);
  expect(await readSettings(path)).toEqual({ settings, trouble: null });
});

test.each(['', '{', '[]', '7', 'null'])('a file that says %j is set aside, and the coach is told', async (text) => {
  const path = join(temporaryFolder(), 'settings.json');
  writeFileSync(path, text);
  const { settings, trouble } = await readSettings(path);
  expect(settings).toEqual(USUAL_SETTINGS);
  expect(trouble).toMatch(/usual ones are used.*\.$/);
  expect(existsSync(path)).toBe(false);
  expect(readFileSync(`${path}.unreadable`, 'utf8')).toBe(text);
});

test('broken files are all kept, the same one once, and not for ever more', async () => {
  const folder = temporaryFolder();
  const path = join(folder, 'settings.json');
  for (let round = 0; round < 25; round += 1) {
    writeFileSync(path, `{ broken ${String(round)}`);
    await readSettings(path);
    writeFileSync(path, '{ broken 0');
    await readSettings(path);
  }
  const kept = readdirSync(folder).filter((name) => name !== 'settings.json');
  expect(kept).toHaveLength(20);
  expect(readFileSync(`${path}.unreadable`, 'utf8')).toBe('{ broken 0');
  expect(readFileSync(`${path}.unreadable-2`, 'utf8')).toBe('{ broken 1');
});

test('a file that may not be read is said, not passed over', async () => {
  const path = join(temporaryFolder(), 'settings.json');
  mkdirSync(path);
  const { settings, trouble } = await readSettings(path);
  expect(settings).toEqual(USUAL_SETTINGS);
  expect(trouble).toMatch(/usual settings are used.*is a folder/);
});
