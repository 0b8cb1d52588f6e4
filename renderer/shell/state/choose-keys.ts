import { say } from '../../../core/model/say.ts';
import type { KeyChoices } from './key-choices.ts';

interface KeyedCommand {
  readonly id: string;
  readonly label: string;
  readonly keys: readonly string[];
}

/** Keys that a mark, a dialog or the system needs as they are. */
const FIXED: Readonly<Record<string, string>> = {
  Escape: say`Esc cancels and lets go.`,
  Enter: say`Enter accepts a point and presses buttons.`,
  Backspace: say`Backspace goes back one.`,
  Delete: say`Delete takes the selected mark away.`,
  Tab: say`Tab goes from one control to the next.`,
  'Shift+Tab': say`Tab goes from one control to the next.`,
  ' ': say`Space held moves the picture.`,
  h: say`H says that a body point is hidden.`,
};
const SYSTEM = /^(Alt\+|F\d+$|Mod\+[qwnr]$|Mod\+Shift\+[ri]$)/;
const HALVES = new Set(['Shift', 'Control', 'Alt', 'Meta', 'AltGraph', 'CapsLock', 'Dead', 'Unidentified']);

/** Why a key cannot be chosen, in one sentence; null when it can. A half of a combination is no key yet: undefined. */
export function refusalOf(key: string): string | null | undefined {
  const last = key === '+' || key.endsWith('++') ? '+' : (key.split('+').at(-1) ?? '');
  if (HALVES.has(last)) return undefined;
  if (FIXED[key] !== undefined) return FIXED[key];
  return SYSTEM.test(key) ? say`The system or the window uses this key.` : null;
}

function keysNow(command: KeyedCommand, choices: KeyChoices): readonly string[] {
  return choices[command.id] ?? command.keys;
}

/** The command that has a key, other than `except`, or null. */
export function holderOf<Command extends KeyedCommand>(
  commands: readonly Command[],
  choices: KeyChoices,
  key: string,
  except: string,
): Command | null {
  return commands.find((command) => command.id !== except && keysNow(command, choices).includes(key)) ?? null;
}

/**
 * The choices after a command got a key as its only one; whoever had it loses it. Choices that are the usual keys again are
 * left out, so that new usual keys of a later program come through.
 */
export function withKey(
  commands: readonly KeyedCommand[],
  choices: KeyChoices,
  id: string,
  key: string | null,
): KeyChoices {
  const entries = commands.flatMap((command): [string, readonly string[]][] => {
    const before = keysNow(command, choices);
    const after = command.id === id ? (key === null ? [] : [key]) : before.filter((each) => each !== key);
    return sameKeys(after, command.keys) ? [] : [[command.id, after]];
  });
  return Object.fromEntries(entries);
}

function sameKeys(one: readonly string[], other: readonly string[]): boolean {
  return one.length === other.length && one.every((key, place) => key === other[place]);
}
