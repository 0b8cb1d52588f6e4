import { useState } from 'react';
import type { SavedTalk } from '../../electron/ipc/contract.ts';
import { FILM_CAUTIONS } from '../../core/film/closing-card.ts';
import type { FilmShape } from '../../core/talk/film-plan.ts';
import { Button } from '../controls/button.tsx';
import { ConfirmDialog } from '../controls/dialog.tsx';
import { Check, Choice } from '../controls/fields.tsx';
import { app } from '../shell/state/app-state.ts';
import { attempt } from '../shell/state/messages.ts';
import { useStore } from '../shell/state/store.ts';
import { removeTalk, saveTalk, showSaved } from './state/talk.ts';
import lay from '../controls/lay.module.css';

/** As what the talk-through goes out, and the way to be rid of it. */
export function SavePanel({ saved }: { readonly saved: SavedTalk | null }) {
  const busy = useStore(app, (state) => state.jobs.length > 0);
  const [shape, setShape] = useState<FilmShape>('wide');
  const [burns, setBurns] = useState(false);
  const [removing, setRemoving] = useState(false);
  return (
    <>
      <h2>The video</h2>
      <Choice
        label="For"
        value={shape}
        options={[
          { value: 'wide', label: 'A screen' },
          { value: 'phone', label: 'A phone' },
        ]}
        onChange={setShape}
      />
      <Check checked={burns} onChange={setBurns}>
        Write the captions into the picture
      </Check>
      <p className={lay.soft}>It ends with the key thoughts and the first drill of the lesson page, and with:</p>
      <ul className={lay.soft}>
        {FILM_CAUTIONS.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <Button look="main" disabled={busy} onPress={() => void attempt(() => saveTalk(shape, burns))}>
        Save video
      </Button>
      {saved === null ? null : <Saved saved={saved} />}
      <Button look="quiet" onPress={() => setRemoving(true)}>
        Remove talk-through
      </Button>
      {removing ? (
        <ConfirmDialog
          title="Remove the talk-through?"
          what="All that was said and shown is deleted for good, with what was cut out of it. A video that you saved stays where it is."
          doIt="Remove for good"
          onDo={() => void attempt(removeTalk)}
          onClose={() => setRemoving(false)}
        />
      ) : null}
    </>
  );
}

const MEGABYTE = 1_000_000;

function Saved({ saved: { path, folder, bytes } }: { readonly saved: SavedTalk }) {
  return (
    <div className={lay.column}>
      <p className={lay.soft} style={{ overflowWrap: 'anywhere' }}>
        Saved last: {path}, {(bytes / MEGABYTE).toFixed(1)} MB
      </p>
      <Button small onPress={() => showSaved(folder)}>
        Show folder
      </Button>
    </div>
  );
}
