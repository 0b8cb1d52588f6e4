import { useState } from 'react';
import { glossaryWith } from '../../core/measure/words/glossary.ts';
import { app } from './state/app-state.ts';
import { openSettings } from './state/go-back.ts';
import { keysOf } from './state/key-choices.ts';
import { settings } from './state/settings.ts';
import { useStore } from './state/store.ts';
import { SENDING } from '../../core/measure/words/cautions.ts';
import { CautionList } from './cautions.tsx';
import { COMMANDS, COMMAND_GROUPS } from './commands.ts';
import { FilmingGuide } from './filming-guide.tsx';
import { keyInWords, onMac } from './key-words.ts';
import { HAND_KEYS, MARK_KEYS } from './mark-keys.ts';
import { Button } from '../controls/button.tsx';
import { Dialog } from '../controls/dialog.tsx';
import { TextEntry } from '../controls/fields.tsx';
import styles from './help-dialog.module.css';

const PAGES = ['Glossary', 'Keys', 'Filming guide', 'Cautions', 'Support'] as const;
type Page = (typeof PAGES)[number];

/** What a coach may look up at any time, over whatever is under way. */
export function HelpDialog({ onClose }: { readonly onClose: () => void }) {
  const [page, setPage] = useState<Page>('Glossary');
  return (
    <Dialog title="Help" onClose={onClose}>
      <div className={styles.pages} role="group" aria-label="Pages of help">
        {PAGES.map((each) => (
          <Button key={each} small pressed={each === page} onPress={() => setPage(each)}>
            {each}
          </Button>
        ))}
      </div>
      <OnePage page={page} />
      <div className={styles.actions}>
        <Button look="main" onPress={onClose}>
          Done
        </Button>
      </div>
    </Dialog>
  );
}

function OnePage({ page }: { readonly page: Page }) {
  switch (page) {
    case 'Glossary':
      return <Glossary />;
    case 'Keys':
      return <Keys />;
    case 'Filming guide':
      return <FilmingGuide />;
    case 'Cautions':
      return (
        <section aria-label="Cautions" className={styles.part}>
          <h3>Cautions</h3>
          <CautionList />
          <p>{SENDING}</p>
        </section>
      );
    case 'Support':
      return <Support />;
  }
}

function Glossary() {
  const [text, setText] = useState('');
  const parts = glossaryWith(text);
  return (
    <section aria-label="Glossary" className={styles.part}>
      <TextEntry label="Find a word" value={text} onChange={setText} autoFocus />
      {parts.length === 0 ? <p>No word here speaks of “{text}”.</p> : null}
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
    <section aria-label="Keys" className={styles.part}>
      {COMMAND_GROUPS.map((group) => (
        <section key={group} aria-label={group}>
          <h3>{group}</h3>
          {rows(
            COMMANDS.filter((command) => command.group === group).map((command) => [
              keysOf(command)
                .map((key) => keyInWords(key, onMac()))
                .join(' or ') || 'no key',
              command.label,
            ]),
          )}
        </section>
      ))}
      <h3>On a mark</h3>
      {rows(MARK_KEYS)}
      <h3>Mouse, pen and fingers</h3>
      {rows(HAND_KEYS)}
      <div className={styles.actions}>
        <Button onPress={openSettings}>Change keys in Settings</Button>
      </div>
    </section>
  );
}

/** Nothing is sent by the program: what helps whoever helps stands here to be copied by hand. */
function Support() {
  const facts = useStore(app, (state) => state.facts);
  return (
    <section aria-label="Support" className={styles.part}>
      <h3>When something goes wrong</h3>
      <p>Baybook sends nothing. Ask whoever gave it to you, and note down:</p>
      <ul>
        <li>what you did last, and what the message said, word for word;</li>
        <li>which clip it was: camera or phone, rate, and how long;</li>
        <li>the facts below.</li>
      </ul>
      <p>Do not send clips or stills of a student without consent. Your marks are saved as you go.</p>
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
            <dd>{facts.ffmpeg === null ? 'none found' : `${facts.ffmpeg.version}, ${facts.ffmpeg.path}`}</dd>
          </div>
          <div>
            <dt>Your book</dt>
            <dd>{facts.bookFolder}</dd>
          </div>
        </dl>
      )}
    </section>
  );
}
