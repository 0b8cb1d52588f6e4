import { say } from '../../core/model/say.ts';
import { keysOf } from './state/key-choices.ts';
import { NUDGES } from '../tools/nudge.ts';
import { COMMANDS } from './commands.ts';
import type { NudgeKeys } from '../bench/tool-words.ts';

const NAMES: Readonly<Record<string, string>> = {
  ArrowLeft: '←',
  ArrowRight: '→',
  ArrowUp: '↑',
  ArrowDown: '↓',
  PageUp: say`Page up`,
  PageDown: say`Page down`,
  ' ': say`Space`,
  Escape: say`Esc`,
  Enter: say`Enter`,
  Backspace: say`Backspace`,
  Delete: say`Delete`,
  Home: say`Home`,
  End: say`End`,
  Shift: say`Shift`,
};

/** A key for people, e.g. "Ctrl+Z" ("Cmd+Z" on a Mac), "Shift+→", "M", "+". */
export function keyInWords(key: string, isMac: boolean): string {
  const parts = key === '+' ? ['+'] : key.split('+').map((part) => (part === '' ? '+' : part));
  // "Mod++" is Mod and the sign itself.
  const names = key.endsWith('++') ? [...parts.slice(0, -2), '+'] : parts;
  return names
    .map((part) => {
      if (part === 'Mod') return isMac ? 'Cmd' : say`Ctrl`;
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
  return first === undefined ? '' : say`Key ${keyInWords(first, onMac())}`;
}

/** Words for a tooltip with the key of a command behind them, where it has one. */
export function withKey(words: string, commandId: string): string {
  return [words, keyTitle(commandId)].filter((part) => part !== '').join('. ');
}

/** The keys that move a mark, for a sentence; null where the coach has taken one of them away. */
export function nudgeKeysInWords(isMac: boolean = onMac()): NudgeKeys | null {
  const [coarse, fine] = [false, true].map((isFine) => oneSetInWords(isFine, isMac));
  return coarse === undefined || fine === undefined || coarse === '' || fine === '' ? null : { coarse, fine };
}

/** "Ctrl+arrow keys" where it is the arrow keys with one modifier, else all four: "J, L, I, K". Nothing where one is missing. */
function oneSetInWords(isFine: boolean, isMac: boolean): string {
  const keys = NUDGES.filter((nudge) => nudge.isFine === isFine).map(({ id, key }) => ({
    usual: key,
    has: keysOf({ id, keys: [key] })[0] ?? '',
  }));
  if (keys.some(({ has }) => has === '')) return '';
  const withArrows = keys.every(({ usual, has }) => usual === has);
  const [first] = keys;
  if (withArrows && first !== undefined) {
    const [, held = ''] = /^(.*\+)Arrow/.exec(first.usual) ?? [];
    return say`${keyInWords(`${held}x`, isMac).slice(0, -1)}arrow keys`;
  }
  return keys.map(({ has }) => keyInWords(has, isMac)).join(', ');
}
