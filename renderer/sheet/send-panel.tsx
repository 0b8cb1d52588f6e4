import { useState } from 'react';
import type { BookSwing } from '../../core/model/book.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';
import type { Checkpoint, View } from '../../core/model/words.ts';
import { app } from '../shell/state/app-state.ts';
import { attempt } from '../shell/state/messages.ts';
import { exportSwing, saveStills } from './state/send-actions.ts';
import { useStore } from '../shell/state/store.ts';
import { USUAL_CHECKPOINTS } from '../shell/next-step.ts';
import { Button } from '../controls/button.tsx';
import { Check, Choice, Picker } from '../controls/fields.tsx';
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
  const [ticked, setTicked] = useState<Readonly<Record<string, boolean>>>({});
  const [format, setFormat] = useState<'png' | 'jpeg'>('jpeg');
  const [width, setWidth] = useState<(typeof WIDTHS)[number]>('1600');
  const clips = then === null ? swing.clips : swing.clips.filter((clip) => then.clips.some(sameView(clip.view)));
  const views = clips.map((clip) => clip.view).filter((view) => ticked[view] ?? true);
  const swings = then === null ? [swing] : [then, swing];
  const viewsWith = (checkpoint: Checkpoint): readonly View[] =>
    views.filter((view) =>
      swings.every((one) => one.clips.some((clip) => clip.view === view && clip.checkpoints[checkpoint] !== undefined)),
    );
  const isReady = (checkpoint: Checkpoint): boolean => viewsWith(checkpoint).length > 0;
  const ready = CHECKPOINTS.filter((checkpoint) => named.includes(checkpoint) && isReady(checkpoint));
  /** Ticked unless the coach says otherwise. */
  const isUsual = (checkpoint: Checkpoint): boolean =>
    USUAL_CHECKPOINTS.includes(checkpoint) || !ready.some((one) => USUAL_CHECKPOINTS.includes(one));
  const checkpoints = ready.filter((checkpoint) => ticked[checkpoint] ?? isUsual(checkpoint));
  const toggle = (name: string, on: boolean) => setTicked({ ...ticked, [name]: on });
  const order = {
    swingId: swing.swing.id,
    thenSwingId: then?.swing.id ?? null,
    checkpoints,
    views: views.filter((view) => checkpoints.some((checkpoint) => viewsWith(checkpoint).includes(view))),
    format,
    width: Number(width),
  };
  return (
    <aside className={styles.panel} aria-label="Save and send">
      <h2>Stills to send</h2>
      <p className={styles.what}>
        {then === null
          ? 'One still for each view: its checkpoints side by side, with their readings.'
          : 'One still for each view and checkpoint: then beside now, with the differences.'}
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
                {whereInWords(viewsWith(checkpoint), views, then !== null)}
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
              { value: 'png', label: 'PNG, exact' },
            ]}
            onChange={setFormat}
          />
          <Picker
            label="Width in pixels"
            value={width}
            options={WIDTHS.map((value) => ({
              value,
              label: value === '1600' && format === 'jpeg' ? '1600 (fits an email)' : value,
            }))}
            onChange={(value) => setWidth(value ?? '1600')}
          />
          <Button
            look="main"
            disabled={busy || checkpoints.length === 0}
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

/** What to know of a checkpoint that does not stand in every view. */
function whereInWords(has: readonly View[], views: readonly View[], compared: boolean): string {
  if (has.length === views.length) return '';
  if (has.length === 0) return compared ? ' (not named then and now)' : ' (not named)';
  return ` (${has.map((view) => VIEW_LABELS[view].toLowerCase()).join(', ')} only)`;
}

function sameView(view: View): (clip: { readonly view: View }) => boolean {
  return (clip) => clip.view === view;
}
