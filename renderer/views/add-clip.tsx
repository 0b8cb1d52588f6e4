import { useState } from 'react';
import type { BookSwing } from '../../core/model/book.ts';
import { VIEWS, VIEW_LABELS } from '../../core/model/words.ts';
import type { View } from '../../core/model/words.ts';
import { pathOfDroppedFile } from '../api.ts';
import { app } from '../state/app.ts';
import { attempt, tellTrouble } from '../state/messages.ts';
import { useStore } from '../state/store.ts';
import { chooseClipFile, importClip } from '../state/swing-actions.ts';
import { AppError } from '../../core/model/errors.ts';
import { CONSENT } from './cautions.tsx';
import styles from './clip-head.module.css';
import { Button } from './parts/button.tsx';
import { FormDialog } from './parts/dialog.tsx';
import { Choice } from './parts/fields.tsx';

/** Where a clip of one view comes in: chosen from a dialog or dropped. */
export function AddClip({ view, swing }: { readonly view: View; readonly swing: BookSwing }) {
  const [path, setPath] = useState<string | null>(null);
  const [over, setOver] = useState(false);
  const busy = useStore(app, (state) => state.jobs.length > 0);
  const choose = async () => {
    const chosen = await chooseClipFile();
    if (chosen !== null) setPath(chosen);
  };
  const drop = (file: File | undefined) => {
    setOver(false);
    if (file === undefined || busy) return;
    const dropped = pathOfDroppedFile(file);
    if (dropped !== null) return setPath(dropped);
    tellTrouble(new AppError('file-not-found', 'What you dropped is not a file on this computer. Save it first.'));
  };
  return (
    <div
      className={styles.drop}
      data-over={over}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        drop(event.dataTransfer.files[0]);
      }}
    >
      <Button look="main" disabled={busy} onPress={() => void attempt(choose)}>
        Add a clip, {VIEW_LABELS[view].toLowerCase()}
      </Button>
      <span>or drop the file here.</span>
      {path === null ? null : (
        <ImportDialog key={path} path={path} view={view} swing={swing} onClose={() => setPath(null)} />
      )}
    </div>
  );
}

function ImportDialog(props: {
  readonly path: string;
  readonly view: View;
  readonly swing: BookSwing;
  readonly onClose: () => void;
}) {
  const free = VIEWS.filter((view) => props.swing.clips.every((clip) => clip.view !== view));
  const [view, setView] = useState(props.view);
  const [stored, setStored] = useState<'copied' | 'linked'>('copied');
  return (
    <FormDialog
      title="Add a clip"
      doIt="Add clip"
      onDo={() => {
        props.onClose();
        void attempt(() => importClip(props.path, view, stored));
      }}
      onClose={props.onClose}
    >
      <p style={{ overflowWrap: 'anywhere' }}>{props.path}</p>
      <Choice
        label="Where did the camera stand?"
        value={view}
        options={free.map((value) => ({ value, label: VIEW_LABELS[value] }))}
        onChange={setView}
      />
      <Choice
        label="Keep the file"
        value={stored}
        options={[
          { value: 'copied', label: 'Copy it into the book' },
          { value: 'linked', label: 'Leave it where it is' },
        ]}
        onChange={setStored}
      />
      <p className={styles.caution}>{CONSENT}</p>
    </FormDialog>
  );
}
