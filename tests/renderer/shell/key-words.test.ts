import { afterEach, describe, expect, test } from 'vitest';
import { keyChoices } from '../../../renderer/shell/state/key-choices.ts';
import { NUDGES } from '../../../renderer/tools/nudge.ts';
import { keyInWords, nudgeKeysInWords } from '../../../renderer/shell/key-words.ts';
import { COMMANDS } from '../../../renderer/shell/commands.ts';

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

test('no key that steps frames moves a mark, and the keys that do are in the list', () => {
  const keysOfGroup = (group: string) => COMMANDS.filter((each) => each.group === group).flatMap(({ keys }) => keys);
  const [stepping, moving] = [keysOfGroup('Frames'), keysOfGroup('Marks')];
  for (const key of ['ArrowLeft', 'ArrowRight', 'Shift+ArrowLeft', 'Shift+ArrowRight']) expect(stepping).toContain(key);
  expect(moving).toEqual(NUDGES.map(({ key }) => key));
  expect(moving).toHaveLength(8);
  expect(moving.filter((key) => stepping.includes(key))).toEqual([]);
});

describe('the keys that move a mark, in a sentence', () => {
  afterEach(() => keyChoices.update(() => ({})));

  test('are the arrow keys with a modifier', () => {
    const [other, mac] = [false, true].map((isMac) => nudgeKeysInWords(isMac));
    expect(other).toEqual({ coarse: 'Ctrl+arrow keys', fine: 'Ctrl+Shift+arrow keys' });
    expect(mac).toEqual({ coarse: 'Cmd+arrow keys', fine: 'Cmd+Shift+arrow keys' });
  });

  test('are those that the coach chose', () => {
    keyChoices.update(() => ({ 'nudge-left': ['ArrowLeft'] }));
    expect(nudgeKeysInWords(false)?.coarse).toBe('←, Ctrl+→, Ctrl+↑, Ctrl+↓');
  });

  test('are left out where one is taken away', () => {
    keyChoices.update(() => ({ 'nudge-up-fine': [] }));
    expect(nudgeKeysInWords(false)).toBeNull();
  });
});
