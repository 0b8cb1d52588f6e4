import { useState } from 'react';
import type { BookClip } from '../../core/model/book.ts';
import { VIEWS, VIEW_LABELS } from '../../core/model/words.ts';
import { app } from '../state/app.ts';
import { openBench } from '../state/bench-actions.ts';
import { attempt } from '../state/messages.ts';
import { useStore } from '../state/store.ts';
import { removeClip, setClipView } from '../state/swing-actions.ts';
import styles from './clip-head.module.css';
import { Button } from './parts/button.tsx';
import { ConfirmDialog, Dialog } from './parts/dialog.tsx';
import { RateDialog } from './rate-dialog.tsx';
import { captureRateInWords } from './words.ts';

/** Which clip stands in a column, how fast it was filmed, and what can be done with it. */
export function ClipHead({ clip, changeable }: { readonly clip: BookClip; readonly changeable: boolean }) {
  const [open, setOpen] = useState<'rate' | 'view' | 'remove' | null>(null);
  const close = () => setOpen(null);
  const rate = captureRateInWords(clip.captureRate);
  return (
    <div className={styles.head}>
      <p className={styles.name} title={clip.originalName}>
        {clip.originalName}
      </p>
      {changeable ? (
        <div className={styles.row}>
          <Button small look="main" onPress={() => openBench(clip.id, 0)}>
            Open clip
          </Button>
          <Button small label={`Capture rate: ${rate}. Change it`} onPress={() => setOpen('rate')}>
            {rate}
          </Button>
          <Button small look="quiet" label={`Change the view of ${clip.originalName}`} onPress={() => setOpen('view')}>
            Other view
          </Button>
          <Button small look="quiet" label={`Remove the clip ${clip.originalName}`} onPress={() => setOpen('remove')}>
            Remove
          </Button>
        </div>
      ) : (
        <p className={styles.name}>{rate}</p>
      )}
      {open === 'rate' ? <RateDialog clip={clip} onClose={close} /> : null}
      {open === 'view' ? <ViewDialog clip={clip} onClose={close} /> : null}
      {open === 'remove' ? (
        <ConfirmDialog
          title="Remove this clip?"
          what={`What is named and marked on ${clip.originalName} goes with it. ${
            clip.stored === 'linked' ? 'The file itself stays where it is.' : 'The file you copied it from stays.'
          } This cannot be taken back.`}
          doIt="Remove clip"
          onDo={() => void attempt(() => removeClip(clip.id))}
          onClose={close}
        />
      ) : null}
    </div>
  );
}

function ViewDialog({ clip, onClose }: { readonly clip: BookClip; readonly onClose: () => void }) {
  const clips = useStore(app, (state) => state.swing?.clips);
  const others = (clips ?? []).filter((other) => other.id !== clip.id);
  return (
    <Dialog title="Where did the camera stand?" onClose={onClose}>
      {VIEWS.map((view) => (
        <Button
          key={view}
          look={view === clip.view ? 'main' : 'plain'}
          disabled={others.some((other) => other.view === view)}
          onPress={() => {
            onClose();
            void attempt(() => setClipView(clip.id, view));
          }}
        >
          {VIEW_LABELS[view]}
        </Button>
      ))}
      {others.length === 0 ? null : <p>This swing already has a clip of the other view. Remove that one first.</p>}
    </Dialog>
  );
}
