import { useEffect, useState } from 'react';
import { LANGUAGE } from '../../core/model/language.ts';
import { LANGUAGE_CHOICES, LANGUAGE_NAMES, languageOf } from '../../core/model/languages.ts';
import type { LanguageChoice } from '../../core/model/languages.ts';
import { say } from '../../core/model/say.ts';
import { APPEARANCES, TEXT_SIZES, UNIT_SYSTEMS } from '../../core/model/settings.ts';
import type { Appearance, UnitSystem } from '../../core/model/settings.ts';
import { holderOf, refusalOf, withKey } from './state/choose-keys.ts';
import { keysOf, nameOfKey } from './state/key-choices.ts';
import { attempt } from './state/messages.ts';
import { changeSettings, settings } from './state/settings.ts';
import { useStore } from './state/store.ts';
import { bringInKept } from './state/winding-up.ts';
import { COMMANDS, COMMAND_GROUPS, GROUP_LABELS } from './commands.ts';
import type { Command } from './commands.ts';
import { keyInWords, onMac } from './key-words.ts';
import { HAND_KEYS, MARK_KEYS } from './mark-keys.ts';
import { Button } from '../controls/button.tsx';
import { Dialog } from '../controls/dialog.tsx';
import { Choice } from '../controls/fields.tsx';
import styles from './settings-dialog.module.css';

const APPEARANCE_LABELS: Readonly<Record<Appearance, string>> = {
  system: say`As the system`,
  light: say`Light`,
  dark: say`Dark`,
};

const UNIT_LABELS: Readonly<Record<UnitSystem, string>> = {
  metric: 'cm, m, m/s',
  imperial: say`inches, yards, mph`,
};

const languageLabel = (choice: LanguageChoice): string =>
  choice === 'system' ? APPEARANCE_LABELS.system : LANGUAGE_NAMES[choice];

/** Size of text, light or dark, units, language, and every key with what it does: all of them can be changed. */
export function SettingsDialog({ onClose }: { readonly onClose: () => void }) {
  const { textSize, appearance, units, language = 'system' } = useStore(settings, (state) => state);
  return (
    <Dialog title={say`Settings`} onClose={onClose}>
      <div className={styles.choices}>
        <Choice
          label={say`Size of text`}
          value={String(textSize)}
          options={TEXT_SIZES.map((size) => ({ value: String(size), label: `${String(size)} %` }))}
          onChange={(value) => {
            const size = TEXT_SIZES.find((each) => String(each) === value);
            if (size !== undefined) changeSettings({ textSize: size });
          }}
        />
        <Choice
          label={say`Light or dark`}
          value={appearance}
          options={APPEARANCES.map((value) => ({ value, label: APPEARANCE_LABELS[value] }))}
          onChange={(value) => changeSettings({ appearance: value })}
        />
        <Choice
          label={say`Units`}
          value={units}
          options={UNIT_SYSTEMS.map((value) => ({ value, label: UNIT_LABELS[value] }))}
          onChange={(value) => changeSettings({ units: value })}
        />
        <Choice
          label={say`Language`}
          value={language}
          options={LANGUAGE_CHOICES.map((value) => ({ value, label: languageLabel(value) }))}
          onChange={(value) => changeSettings({ language: value })}
        />
      </div>
      {languageOf(language, navigator.languages) === LANGUAGE ? null : (
        <p role="status" className={styles.told}>
          {say`Baybook speaks the language that you chose from its next start on.`}
        </p>
      )}
      <Keys />
      <div className={styles.row}>
        <Button onPress={() => changeSettings({ keys: {} })}>{say`Usual keys`}</Button>
        <Button onPress={() => void attempt(() => bringInKept(true))}>{say`Bring in kept changes`}</Button>
        <Button look="main" onPress={onClose}>{say`Done`}</Button>
      </div>
    </Dialog>
  );
}

function Keys() {
  /** The command that waits for its key. */
  const [waiting, setWaiting] = useState<string | null>(null);
  const [told, setTold] = useState<string | null>(null);
  useNextKey(waiting, (key) => {
    const command = COMMANDS.find(({ id }) => id === waiting);
    if (command === undefined) return;
    if (key === 'Escape') {
      setWaiting(null);
      return;
    }
    const refusal = refusalOf(key);
    if (refusal === undefined) return;
    if (refusal !== null) {
      setTold(say`${keyInWords(key, onMac())} stays as it is. ${refusal}`);
      return;
    }
    const holder = holderOf(COMMANDS, settings.get().keys, key, command.id);
    changeSettings({ keys: withKey(COMMANDS, settings.get().keys, command.id, key) });
    setTold(
      holder === null
        ? null
        : say`${keyInWords(key, onMac())} was the key for ${holder.label}, which has lost it. Give it another.`,
    );
    setWaiting(null);
  });
  return (
    <>
      <p role="status" className={styles.told}>
        {told ??
          (waiting === null ? say`On the bench, these keys do:` : say`Press the new key. Esc leaves it as it is.`)}
      </p>
      <div className={styles.list}>
        {COMMAND_GROUPS.map((group) => (
          <section key={group} aria-label={GROUP_LABELS[group]}>
            <h3>{GROUP_LABELS[group]}</h3>
            <ul>
              {COMMANDS.filter((command) => command.group === group).map((command) => (
                <KeyRow
                  key={command.id}
                  command={command}
                  waits={waiting === command.id}
                  onChange={() => {
                    setTold(null);
                    setWaiting(command.id);
                  }}
                />
              ))}
            </ul>
          </section>
        ))}
        <section aria-label={say`On a mark, and by hand`}>
          <h3>{say`On a mark, and by hand`}</h3>
          <dl className={styles.fixed}>
            {[...MARK_KEYS, ...HAND_KEYS].map(([key, what]) => (
              <div key={key}>
                <dt>
                  <kbd>{key}</kbd>
                </dt>
                <dd>{what}</dd>
              </div>
            ))}
          </dl>
        </section>
      </div>
    </>
  );
}

function KeyRow(props: { readonly command: Command; readonly waits: boolean; readonly onChange: () => void }) {
  const { command, waits, onChange } = props;
  useStore(settings, (state) => state.keys);
  const keys = keysOf(command).map((key) => keyInWords(key, onMac()));
  const words = keys.length === 0 ? say`no key` : keys.join(say` or `);
  return (
    <li className={styles.command}>
      <span>{command.label}</span>
      <kbd>{waits ? say`press a key` : words}</kbd>
      <Button small label={say`Change the key of ${command.label}: ${words}`} onPress={onChange}>{say`Change`}</Button>
    </li>
  );
}

/** Hands the next key to `take` while something waits for one; nothing else hears of it. */
function useNextKey(waiting: string | null, take: (key: string) => void): void {
  useEffect(() => {
    if (waiting === null) return;
    const onKey = (event: KeyboardEvent): void => {
      event.preventDefault();
      event.stopImmediatePropagation();
      take(nameOfKey(event));
    };
    window.addEventListener('keydown', onKey, { capture: true });
    return () => window.removeEventListener('keydown', onKey, { capture: true });
  });
}
