import { useState } from 'react';
import { lowered, say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import type { BookClip } from '../../core/model/book.ts';
import { VIEWS, VIEW_LABELS } from '../../core/model/words.ts';
import { isolated } from '../../core/model/isolated.ts';
import { app } from '../shell/state/app-state.ts';
import { openBench } from '../bench/state/bench-actions.ts';
import { moveToBin } from '../shell/state/bin.ts';
import { attempt } from '../shell/state/messages.ts';
import { useStore } from '../shell/state/store.ts';
import { setClipView } from './state/edit-actions.ts';
import { findFileAgain } from './state/swing-actions.ts';
import styles from './clip-head.module.css';
import { Button } from '../controls/button.tsx';
import { Dialog } from '../controls/dialog.tsx';
import { Choice } from '../controls/fields.tsx';
import { TERMS } from '../../core/measure/words/glossary.ts';
import { RateDialog } from './rate-dialog.tsx';
import { captureRateInWords, countInWords, leftOutInWords, picturesInWords } from '../shell/words.ts';

/** Which clip stands in a column, how fast it was filmed, and what can be done with it. */
export function ClipHead({ clip, changeable }: { readonly clip: BookClip; readonly changeable: boolean }) {
  const [open, setOpen] = useState<'rate' | 'more' | null>(null);
  const close = () => setOpen(null);
  const rate = captureRateInWords(clip.captureRate);
  const isSure = clip.captureRate?.confirmed ?? false;
  const index = useStore(app, (state) => state.indexes[clip.id]);
  const pictures = index === undefined ? '' : picturesInWords(index);
  return (
    <div className={styles.head}>
      {pictures === '' ? null : <p className={styles.caution}>{pictures}</p>}
      <div className={styles.row}>
        {changeable ? (
          <Button
            small
            look="main"
            label={say`Open clip, ${VIEW_LABELS[clip.view]}`}
            onPress={() => openBench(clip.id, 0)}
          >{say`Open clip`}</Button>
        ) : null}
        <Button
          small
          look="quiet"
          label={say`More about the clip ${isolated(clip.originalName)}`}
          onPress={() => setOpen('more')}
        >{say`More`}</Button>
        {isSure || !changeable ? null : (
          <Button
            small
            hint={TERMS.realRate.means}
            label={say`${rate}. Say how fast it was filmed`}
            onPress={() => setOpen('rate')}
          >
            {clip.captureRate === null
              ? say`Real rate?`
              : say`${rate.charAt(0).toUpperCase()}${rate.slice(1)}. Is that the real rate?`}
          </Button>
        )}
      </div>
      {open === 'more' ? <MoreDialog {...{ clip, changeable }} onClose={close} go={setOpen} /> : null}
      {open === 'rate' ? <RateDialog clip={clip} onClose={close} /> : null}
    </div>
  );
}

interface MoreDialogProps {
  readonly clip: BookClip;
  readonly changeable: boolean;
  readonly onClose: () => void;
  readonly go: (where: 'rate') => void;
}

/** The facts of a clip; of the open swing's also where its camera stood, and removing it. */
function MoreDialog({ clip, changeable, onClose, go }: MoreDialogProps) {
  const clips = useStore(app, (state) => state.swing?.clips);
  const others = (clips ?? []).filter((other) => other.id !== clip.id);
  const leftOut = useStore(app, (state) => leftOutInWords(state.indexes[clip.id]?.leftOut ?? null));
  const stored =
    clip.stored === 'copied'
      ? say`Copied into the book.`
      : clip.coming === true
        ? say`Its swing is still being taken out of that file. Leave it where it is until then.`
        : say`The file stays where you keep it.`;
  return (
    <Dialog title={isolated(clip.originalName)} onClose={onClose}>
      <p>{said`${clip.width} × ${clip.height}, ${clip.frameCount} frames, ${captureRateInWords(clip.captureRate)}. ${stored}${
        clip.kept === null
          ? null
          : say` Frames ${countInWords(clip.kept.first)} to ${countInWords(clip.kept.first + clip.frameCount - 1)} of the ${countInWords(clip.kept.of)} of that file.`
      }${leftOut === '' ? null : ` ${leftOut}`}`}</p>
      {!changeable ? null : others.length > 0 ? (
        <p>{said`Filmed ${lowered(VIEW_LABELS[clip.view])}. This swing has a clip of the other view too.`}</p>
      ) : (
        <Choice
          label={say`Where did the camera stand?`}
          value={clip.view}
          options={VIEWS.map((value) => ({ value, label: VIEW_LABELS[value] }))}
          onChange={(view) => setClipView(clip.id, view)}
        />
      )}
      <div className={styles.row}>
        {changeable ? (
          <>
            <Button onPress={() => go('rate')}>{say`Change the real rate`}</Button>
            {clip.stored === 'linked' ? (
              <Button onPress={() => void attempt(() => findFileAgain(clip.id))}>{say`Find the file again`}</Button>
            ) : null}
            <Button
              look="quiet"
              onPress={() => {
                onClose();
                void attempt(() => moveToBin('clip', clip.id));
              }}
            >{say`Remove clip`}</Button>
          </>
        ) : null}
        <Button look="main" onPress={onClose}>{say`Done`}</Button>
      </div>
    </Dialog>
  );
}
