import { expect, test } from 'vitest';
import { keyInWords } from '../../../renderer/views/key-words.ts';
import { COMMANDS } from '../../../renderer/views/commands.ts';

test.each([
  ['m', 'M', 'M'],
  ['+', '+', '+'],
  ['Mod++', 'Ctrl++', 'Cmd++'],
  ['Mod+Shift+z', 'Ctrl+Shift+Z', 'Cmd+Shift+Z'],
  ['Shift+ArrowRight', 'Shift+→', 'Shift+→'],
  ['PageUp', 'Page up', 'Page up'],
])('%s is written for people', (key, elsewhere, mac) => {
  expect([keyInWords(key, false), keyInWords(key, true)]).toEqual([elsewhere, mac]);
});

test('no two commands have the same usual key, and each is named once', () => {
  const keys = COMMANDS.flatMap((command) => command.keys);
  expect(keys.filter((key, place) => keys.indexOf(key) !== place)).toEqual([]);
  const ids = COMMANDS.map(({ id }) => id);
  expect(ids.filter((id, place) => ids.indexOf(id) !== place)).toEqual([]);
});
