import { useState } from 'react';
import { say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import { glossaryWith } from '../../core/measure/words/glossary.ts';
import { app } from './state/app-state.ts';
import { openSettings } from './state/go-back.ts';
import { keysOf } from './state/key-choices.ts';
import { settings } from './state/settings.ts';
import { useStore } from './state/store.ts';
import { SENDING } from '../../core/measure/words/cautions.ts';
import { CautionList } from './cautions.tsx';
import { COMMANDS, COMMAND_GROUPS, GROUP_LABELS } from './commands.ts';
import { FilmingGuide } from './filming-guide.tsx';
import { keyInWords, onMac } from './key-words.ts';
import { HAND_KEYS, MARK_KEYS } from './mark-keys.ts';
import { Button } from '../controls/button.tsx';
import { Dialog } from '../controls/dialog.tsx';
import { TextEntry } from '../controls/fields.tsx';
import styles from './help-dialog.module.css';

const PAGES = ['glossary', 'keys', 'filming', 'cautions', 'support'] as const;
type Page = (typeof PAGES)[number];

const PAGE_LABELS: Readonly<Record<Page, string>> = {
  glossary: say`Glossary`,
  keys: say`Keys`,
  filming: say`Filming guide`,
  cautions: say`Cautions`,
  support: say`Support`,
};

/** What a coach may look up at any time, over whatever is under way. */
export function HelpDialog({ onClose }: { readonly onClose: () => void }) {
  const [page, setPage] = useState<Page>('glossary');
  return (
    <Dialog title={say`Help`} onClose={onClose}>
      <div className={styles.pages} role="group" aria-label={say`Pages of help`}>
        {PAGES.map((each) => (
          <Button key={each} small pressed={each === page} onPress={() => setPage(each)}>
            {PAGE_LABELS[each]}
          </Button>
        ))}
      </div>
      <OnePage page={page} />
      <div className={styles.actions}>
        <Button look="main" onPress={onClose}>{say`Done`}</Button>
      </div>
    </Dialog>
  );
}

function OnePage({ page }: { readonly page: Page }) {
  switch (page) {
    case 'glossary':
      return <Glossary />;
    case 'keys':
      return <Keys />;
    case 'filming':
      return <FilmingGuide />;
    case 'cautions':
      return (
        <section aria-label={say`Cautions`} className={styles.part}>
          <h3>{say`Cautions`}</h3>
          <CautionList />
          <p>{SENDING}</p>
        </section>
      );
    case 'support':
      return <Support />;
  }
}

function Glossary() {
  const [text, setText] = useState('');
  const parts = glossaryWith(text);
  return (
    <section aria-label={say`Glossary`} className={styles.part}>
      <TextEntry label={say`Find a word`} value={text} onChange={setText} autoFocus />
      {parts.length === 0 ? <p>{said`No word here speaks of “${text}”.`}</p> : null}
      {parts.map(({ title, entries }) => (
        <section key={title} aria-label={title}>
          <h3>{title}</h3>
          <dl className={styles.terms}>
            {entries.map(({ term, means }) => (
              <div key={term}>
                <dt>{term}</dt>
                <dd>{means}</dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
    </section>
  );
}

function Keys() {
  useStore(settings, (state) => state.keys);
  const rows = (keys: readonly (readonly [string, string])[]) => (
    <dl className={styles.terms}>
      {keys.map(([key, what]) => (
        <div key={key}>
          <dt>{key}</dt>
          <dd>{what}</dd>
        </div>
      ))}
    </dl>
  );
  return (
    <section aria-label={say`Keys`} className={styles.part}>
      {COMMAND_GROUPS.map((group) => (
        <section key={group} aria-label={GROUP_LABELS[group]}>
          <h3>{GROUP_LABELS[group]}</h3>
          {rows(
            COMMANDS.filter((command) => command.group === group).map((command) => [
              keysOf(command)
                .map((key) => keyInWords(key, onMac()))
                .join(say` or `) || say`no key`,
              command.label,
            ]),
          )}
        </section>
      ))}
      <h3>{say`On a mark`}</h3>
      {rows(MARK_KEYS)}
      <h3>{say`Mouse, pen and fingers`}</h3>
      {rows(HAND_KEYS)}
      <div className={styles.actions}>
        <Button onPress={openSettings}>{say`Change keys in Settings`}</Button>
      </div>
    </section>
  );
}

/** Nothing is sent by the program: what helps whoever helps stands here to be copied by hand. */
function Support() {
  const facts = useStore(app, (state) => state.facts);
  return (
    <section aria-label={say`Support`} className={styles.part}>
      <h3>{say`When something goes wrong`}</h3>
      <p>{say`Baybook sends nothing. Ask whoever gave it to you, and note down:`}</p>
      <ul>
        <li>{say`what you did last, and what the message said, word for word;`}</li>
        <li>{say`which clip it was: camera or phone, rate, and how long;`}</li>
        <li>{say`the facts below.`}</li>
      </ul>
      <p>{say`Do not send clips or stills of a student without consent. Your marks are saved as you go.`}</p>
      {facts === null ? null : (
        <dl className={styles.terms}>
          <div>
            <dt>Baybook</dt>
            <dd>{facts.version}</dd>
          </div>
          <div>
            <dt>Electron</dt>
            <dd>{facts.electron}</dd>
          </div>
          <div>
            <dt>ffmpeg</dt>
            <dd>{facts.ffmpeg === null ? say`none found` : `${facts.ffmpeg.version}, ${facts.ffmpeg.path}`}</dd>
          </div>
          <div>
            <dt>{say`Your book`}</dt>
            <dd>{facts.bookFolder}</dd>
          </div>
        </dl>
      )}
    </section>
  );
}
