import { useEffect, useState } from 'react';
import { say } from '../../core/model/say.ts';
import type { BookSwing } from '../../core/model/book.ts';
import type { View } from '../../core/model/words.ts';
import { connectFrames, pathOfDroppedFile } from '../api.ts';
import { app } from '../shell/state/app-state.ts';
import { isBusy } from '../shell/state/jobs.ts';
import { attempt, tellTrouble } from '../shell/state/messages.ts';
import { createPlace } from '../shell/state/place.ts';
import { useStore } from '../shell/state/store.ts';
import { chooseClipFile } from '../swing/state/swing-actions.ts';
import { AppError } from '../../core/model/errors.ts';
import styles from '../swing/clip-head.module.css';
import { ImportDialog } from './import-dialog.tsx';
import { addClipWords } from '../shell/next-step.ts';
import { Button } from '../controls/button.tsx';

/** Where a clip of one view comes in: chosen from a dialog or dropped. */
export function AddClip({ view, swing }: { readonly view: View; readonly swing: BookSwing }) {
  const [path, setPath] = useState<string | null>(null);
  const [over, setOver] = useState(false);
  const busy = useStore(app, isBusy);
  useEffect(() => {
    // What shows the first picture is started while the coach still looks for the file.
    connectFrames().catch(() => undefined);
  }, []);
  const [place] = useState(createPlace);
  useEffect(() => () => place.leave(), [place]);
  const choose = () => place.fill(chooseClipFile, (chosen) => chosen !== null && setPath(chosen));
  const drop = (file: File | undefined) => {
    setOver(false);
    if (file === undefined || busy) return;
    const dropped = pathOfDroppedFile(file);
    place.leave();
    if (dropped !== null) return setPath(dropped);
    tellTrouble(new AppError('file-not-found', say`What you dropped is not a file on this computer. Save it first.`));
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
        {addClipWords(view)}
      </Button>
      <span>{say`or drop the file here.`}</span>
      {path === null ? null : (
        <ImportDialog
          key={path}
          {...{ path, view, swing }}
          onClose={() => setPath(null)}
          onChooseAnother={() => {
            setPath(null);
            void attempt(choose);
          }}
        />
      )}
    </div>
  );
}
