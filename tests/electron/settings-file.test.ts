import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { USUAL_SETTINGS } from '../../core/model/settings.ts';
import { readSettings, writeSettings } from '../../electron/settings-file.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

test('settings come back as they were written; without a file they are the usual ones', async () => {
  const path = join(temporaryFolder(), 'deeper', 'settings.json');
  expect(await readSettings(path)).toEqual({ settings: USUAL_SETTINGS, trouble: null });
  const chosen = { keys: { fit: ['g'], undo: [] }, textSize: 150, appearance: 'dark' } as const;
  await writeSettings(path, chosen);
  expect(await readSettings(path)).toEqual({ settings: chosen, trouble: null });
  expect(readdirSync(join(path, '..'))).toEqual(['settings.json']);
});

test('a field of an earlier or a later program does no harm', async () => {
  const path = join(temporaryFolder(), 'settings.json');
  writeFileSync(path, '{"textSize": 125, "somethingNew": true}');
  expect(await readSettings(path)).toEqual({ settings: { ...USUAL_SETTINGS, textSize: 125 }, trouble: null });
});

test.each(['', '{', '[]', '{"textSize": 7}', '{"keys": {"fit": "g"}}'])(
  'a file that says %j is set aside, and the coach is told',
  async (text) => {
    const path = join(temporaryFolder(), 'settings.json');
    writeFileSync(path, text);
    const { settings, trouble } = await readSettings(path);
    expect(settings).toEqual(USUAL_SETTINGS);
    expect(trouble).toMatch(/usual ones are used.*\.$/);
    expect(existsSync(path)).toBe(false);
    expect(readFileSync(`${path}.unreadable`, 'utf8')).toBe(text);
  },
);
