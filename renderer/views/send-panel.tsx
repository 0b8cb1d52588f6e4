import { useState } from 'react';
import type { BookSwing } from '../../core/model/book.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';
import type { Checkpoint, View } from '../../core/model/words.ts';
import { app } from '../state/app.ts';
import { attempt } from '../state/messages.ts';
import { exportSwing, saveStills } from '../state/send-actions.ts';
import { useStore } from '../state/store.ts';
import { Button } from './parts/button.tsx';
import { Check, Choice, Picker } from './parts/fields.tsx';
import styles from './send-panel.module.css';

const WIDTHS = ['1200', '1600', '2400', '3200'] as const;

interface SendPanelProps {
  readonly swing: BookSwing;
  readonly then: BookSwing | null;
  /** Checkpoints that are named in some clip. */
  readonly named: readonly Checkpoint[];
}

/** What of the sheet is saved as stills, and how. */
export function SendPanel({ swing, then, named }: SendPanelProps) {
  const busy = useStore(app, (state) => state.jobs.length > 0);
  const [left, setLeft] = useState<readonly string[]>([]);
  const [format, setFormat] = useState<'png' | 'jpeg'>('jpeg');
  const [width, setWidth] = useState<(typeof WIDTHS)[number]>('1600');
  const clips = then === null ? swing.clips : swing.clips.filter((clip) => then.clips.some(sameView(clip.view)));
  const views = clips.map((clip) => clip.view).filter((view) => !left.includes(view));
  const isReady = (checkpoint: Checkpoint): boolean =>
    [swing, ...(then === null ? [] : [then])].every((one) =>
      one.clips.filter((clip) => views.includes(clip.view)).every((clip) => clip.checkpoints[checkpoint] !== undefined),
    );
  const checkpoints = CHECKPOINTS.filter(
    (checkpoint) => named.includes(checkpoint) && !left.includes(checkpoint) && isReady(checkpoint),
  );
  const toggle = (name: string, on: boolean) => setLeft(on ? left.filter((entry) => entry !== name) : [...left, name]);
  const order = {
    swingId: swing.swing.id,
    thenSwingId: then?.swing.id ?? null,
    checkpoints,
    views,
    format,
    width: Number(width),
  };
  return (
    <aside className={styles.panel} aria-label="Save and send">
      <h2>Stills to send</h2>
      <p className={styles.what}>
        {then === null
          ? 'One still a view: the checkpoints side by side, with their readings.'
          : 'One still a view: then and now side by side, with the differences.'}
      </p>
      {named.length === 0 ? (
        <p>Name at least one checkpoint first: open a clip, find the frame, and say which it is.</p>
      ) : (
        <>
          <fieldset className={styles.group}>
            <legend>Checkpoints</legend>
            {named.map((checkpoint) => (
              <Check
                key={checkpoint}
                checked={checkpoints.includes(checkpoint)}
                disabled={!isReady(checkpoint)}
                onChange={(on) => toggle(checkpoint, on)}
              >
                {CHECKPOINT_LABELS[checkpoint]}
                {isReady(checkpoint) ? '' : ' (not named in all clips)'}
              </Check>
            ))}
          </fieldset>
          <fieldset className={styles.group}>
            <legend>Views</legend>
            {clips.map((clip) => (
              <Check key={clip.view} checked={views.includes(clip.view)} onChange={(on) => toggle(clip.view, on)}>
                {VIEW_LABELS[clip.view]}
              </Check>
            ))}
          </fieldset>
          <Choice
            label="Kind of file"
            value={format}
            options={[
              { value: 'jpeg', label: 'JPEG' },
              { value: 'png', label: 'PNG' },
            ]}
            onChange={setFormat}
          />
          <Picker
            label="Width in pixels"
            value={width}
            options={WIDTHS.map((value) => ({ value, label: value === '1600' ? '1600 (fits an email)' : value }))}
            onChange={(value) => setWidth(value ?? '1600')}
          />
          <Button
            look="main"
            disabled={busy || checkpoints.length === 0 || views.length === 0}
            onPress={() => void attempt(() => saveStills(order))}
          >
            Save stills
          </Button>
        </>
      )}
      <hr className={styles.rule} />
      <p className={styles.what}>The swing as a file, with all that is named and marked on it.</p>
      <Button disabled={swing.clips.length === 0} onPress={() => void attempt(() => exportSwing(swing.swing.id))}>
        Export swing
      </Button>
    </aside>
  );
}

function sameView(view: View): (clip: { readonly view: View }) => boolean {
  return (clip) => clip.view === view;
}
