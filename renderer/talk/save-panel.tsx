import { inFigures } from '../../core/model/language.ts';
import { useState } from 'react';
import { say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import type { BookSwing } from '../../core/model/book.ts';
import type { SavedTalk } from '../../electron/ipc/contract.ts';
import type { FilmShape } from '../../core/talk/film-plan.ts';
import { Button } from '../controls/button.tsx';
import { DragOut } from '../controls/drag-out.tsx';
import { Check, Choice } from '../controls/fields.tsx';
import { app } from '../shell/state/app-state.ts';
import { isBusy } from '../shell/state/jobs.ts';
import { attempt } from '../shell/state/messages.ts';
import { useStore } from '../shell/state/store.ts';
import { ConsentNote } from '../swing/consent.tsx';
import { mayGoOut } from '../swing/state/consent.ts';
import { saveTalk, showSaved } from './state/talk.ts';
import styles from './put-right.module.css';
import lay from '../controls/lay.module.css';

/** As what the talk-through goes out. */
export function SavePanel({ swing, saved }: { readonly swing: BookSwing; readonly saved: SavedTalk | null }) {
  const busy = useStore(app, isBusy);
  const [shape, setShape] = useState<FilmShape>('wide');
  const [burns, setBurns] = useState(false);
  return (
    <section className={styles.here} aria-label={say`The video`}>
      <h2>{say`The video`}</h2>
      <Choice
        label={say`For`}
        value={shape}
        options={[
          { value: 'wide', label: say`A screen` },
          { value: 'phone', label: say`A phone` },
        ]}
        onChange={setShape}
      />
      <Check checked={burns} onChange={setBurns}>{say`Write the captions into the picture`}</Check>
      <p
        className={lay.soft}
      >{say`It ends with the key thoughts and the first drill of the lesson page, and with the cautions.`}</p>
      <ConsentNote swing={swing} />
      <Button
        look="main"
        disabled={busy}
        onPress={() => void attempt(() => saveTalk(shape, burns))}
      >{say`Save video`}</Button>
      {saved === null ? null : <Saved saved={saved} />}
    </section>
  );
}

const MEGABYTE = 1_000_000;

function Saved({ saved: { path, folder, bytes } }: { readonly saved: SavedTalk }) {
  return (
    <div className={lay.column}>
      <p
        className={lay.soft}
        style={{ overflowWrap: 'anywhere' }}
      >{said`Saved last: ${path}, ${inFigures((bytes / MEGABYTE).toFixed(1))} MB`}</p>
      <div className={lay.row}>
        <Button small onPress={() => showSaved(folder)}>{say`Show folder`}</Button>
        <DragOut prepare={async () => ((await mayGoOut()) ? path : null)} />
      </div>
    </div>
  );
}
