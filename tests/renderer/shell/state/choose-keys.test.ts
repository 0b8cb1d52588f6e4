import { describe, expect, test } from 'vitest';
import { holderOf, refusalOf, withKey } from '../../../../renderer/shell/state/choose-keys.ts';
import { nameOfKey } from '../../../../renderer/shell/state/key-choices.ts';

const COMMANDS = [
  { id: 'fit', label: 'Fit', keys: ['f'] },
  { id: 'zoom-in', label: 'Zoom in', keys: ['+', '='] },
  { id: 'undo', label: 'Undo', keys: ['Mod+z'] },
] as const;

const press = (key: string, held: { shift?: boolean; ctrl?: boolean; meta?: boolean; alt?: boolean } = {}) =>
  nameOfKey({
    key,
    shiftKey: held.shift ?? false,
    ctrlKey: held.ctrl ?? false,
    metaKey: held.meta ?? false,
    altKey: held.alt ?? false,
  });

test('a key has one name, however it is typed', () => {
  expect(press('M', { shift: true })).toBe('Shift+m');
  expect(press('M')).toBe('m');
  expect(press('+', { shift: true })).toBe('+');
  expect(press('?', { shift: true })).toBe('?');
  expect(press('ArrowLeft', { shift: true })).toBe('Shift+ArrowLeft');
  expect(press('z', { ctrl: true })).toBe('Mod+z');
  expect(press('z', { meta: true })).toBe('Mod+z');
  expect(press('Z', { ctrl: true, shift: true })).toBe('Mod+Shift+z');
});

describe('a chosen key', () => {
  test('is taken from whoever had it', () => {
    expect(holderOf(COMMANDS, {}, 'f', 'undo')?.id).toBe('fit');
    expect(holderOf(COMMANDS, {}, 'f', 'fit')).toBeNull();
    expect(withKey(COMMANDS, {}, 'undo', 'f')).toEqual({ fit: [], undo: ['f'] });
    expect(withKey(COMMANDS, {}, 'fit', '+')).toEqual({ fit: ['+'], 'zoom-in': ['='] });
  });

  test('that is the usual one again leaves no trace', () => {
    const changed = withKey(COMMANDS, {}, 'fit', 'g');
    expect(changed).toEqual({ fit: ['g'] });
    expect(withKey(COMMANDS, changed, 'fit', 'f')).toEqual({});
  });

  test('can be none', () => {
    expect(withKey(COMMANDS, {}, 'undo', null)).toEqual({ undo: [] });
  });

  test('is refused in words where a mark, the window or the system needs it', () => {
    for (const key of ['Enter', 'Backspace', 'Tab', 'h', 'Mod+q', 'F5', 'Alt+x']) expect(refusalOf(key)).toMatch(/\.$/);
    for (const key of ['g', 'Shift+ArrowLeft', 'ArrowUp', 'Mod+ArrowUp', '+', 'Mod+b', '?'])
      expect(refusalOf(key)).toBeNull();
    for (const half of ['Shift', 'Mod+Control', 'Alt+Alt']) expect(refusalOf(half)).toBeUndefined();
  });
});
