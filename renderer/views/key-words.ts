import { keysOf } from '../state/key-choices.ts';
import { COMMANDS } from './commands.ts';

const NAMES: Readonly<Record<string, string>> = {
  ArrowLeft: '←',
  ArrowRight: '→',
  ArrowUp: '↑',
  ArrowDown: '↓',
  PageUp: 'Page up',
  PageDown: 'Page down',
  ' ': 'Space',
  Escape: 'Esc',
};

/** A key for people, e.g. "Ctrl+Z" ("Cmd+Z" on a Mac), "Shift+→", "M", "+". */
export function keyInWords(key: string, isMac: boolean): string {
  const parts = key === '+' ? ['+'] : key.split('+').map((part) => (part === '' ? '+' : part));
  // "Mod++" is Mod and the sign itself.
  const names = key.endsWith('++') ? [...parts.slice(0, -2), '+'] : parts;
  return names
    .map((part) => {
      if (part === 'Mod') return isMac ? 'Cmd' : 'Ctrl';
      return NAMES[part] ?? (part.length === 1 ? part.toUpperCase() : part);
    })
    .join('+');
}

export function onMac(): boolean {
  return navigator.userAgent.includes('Macintosh');
}

/** For a tooltip: "Key M", or nothing where the coach has taken the key away. */
export function keyTitle(commandId: string): string {
  const command = COMMANDS.find(({ id }) => id === commandId);
  const [first] = command === undefined ? [] : keysOf(command);
  return first === undefined ? '' : `Key ${keyInWords(first, onMac())}`;
}
