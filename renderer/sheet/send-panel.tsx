import { lowered, say } from '../../core/model/say.ts';
import { SENDING } from '../../core/measure/words/cautions.ts';
import { useState } from 'react';
import type { BookSwing } from '../../core/model/book.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';
import type { View } from '../../core/model/words.ts';
import {
  namedCheckpoints,
  sharedViews,
  showableCheckpoints,
  usualCheckpoints,
  viewsToShow,
} from '../../core/report/checkpoints.ts';
import { OFFERED_WIDTHS, STILL_WIDTH, type StillFormat, type StillLayout } from '../../core/report/still-file.ts';
import { app } from '../shell/state/app-state.ts';
import { isBusy } from '../shell/state/jobs.ts';
import { openLessonPage } from '../lesson-page/state/page-actions.ts';
import { attempt } from '../shell/state/messages.ts';
import { ConsentNote } from '../swing/consent.tsx';
import { exportSwing, saveStills } from './state/send-actions.ts';
import { useStore } from '../shell/state/store.ts';
import { Button } from '../controls/button.tsx';
import { Check, Choice, Picker } from '../controls/fields.tsx';
import styles from './send-panel.module.css';
import lay from '../controls/lay.module.css';

/** What is saved, of one swing and of then and now. */
const LAYOUT_WORDS: Readonly<Record<StillLayout, { readonly alone: string; readonly compared: string }>> = {
  phone: {
    alone: say`One still for each view and checkpoint, large enough to read on a phone.`,
    compared: say`One still for each view and checkpoint: then beside now, large enough to read on a phone.`,
  },
  mail: {
    alone: say`One still for each view: its checkpoints side by side, with their readings.`,
    compared: say`One still for each view and checkpoint: then beside now, with what changed.`,
  },
  full: {
    alone: say`One still for each view: its checkpoints side by side, with their readings.`,
    compared: say`One still for each view and checkpoint: then beside now, with a row for every reading.`,
  },
};

const USUAL_WIDTH = String(STILL_WIDTH.usual);

interface SendPanelProps {
  readonly swing: BookSwing;
  readonly then: BookSwing | null;
}

/** What of the sheet is saved as stills, and how. */
export function SendPanel({ swing, then }: SendPanelProps) {
  const busy = useStore(app, isBusy);
  const [ticked, setTicked] = useState<Readonly<Record<string, boolean>>>({});
  const [layout, setLayout] = useState<StillLayout>('phone');
  const [format, setFormat] = useState<StillFormat>('jpeg');
  const [width, setWidth] = useState(USUAL_WIDTH);
  const swings = then === null ? [swing] : [then, swing];
  const offered = sharedViews(swings);
  const views = offered.filter((view) => ticked[view] ?? true);
  const named = namedCheckpoints(swing);
  const ready = showableCheckpoints(swings, views);
  const usual = usualCheckpoints(swings, views);
  /** The usual ones are ticked unless the coach says otherwise. */
  const checkpoints = ready.filter((checkpoint) => ticked[checkpoint] ?? usual.includes(checkpoint));
  const toggle = (name: string, on: boolean) => setTicked({ ...ticked, [name]: on });
  const order = {
    swingId: swing.swing.id,
    thenSwingId: then?.swing.id ?? null,
    checkpoints,
    views: viewsToShow(swings, views, checkpoints),
    layout,
    format,
    width: Number(width),
  };
  return (
    <aside className={styles.panel} aria-label={say`Save stills`}>
      <h2>{say`Stills to send`}</h2>
      <p className={lay.soft}>{LAYOUT_WORDS[layout][then === null ? 'alone' : 'compared']}</p>
      {named.length === 0 ? (
        <p>{say`Name at least one checkpoint first: open a clip, find the frame, and say which it is.`}</p>
      ) : (
        <>
          <fieldset className={styles.group}>
            <legend>{say`Checkpoints`}</legend>
            {named.map((checkpoint) => (
              <Check
                key={checkpoint}
                checked={checkpoints.includes(checkpoint)}
                disabled={!ready.includes(checkpoint)}
                onChange={(on) => toggle(checkpoint, on)}
              >
                {CHECKPOINT_LABELS[checkpoint]}
                {whereInWords(viewsToShow(swings, views, [checkpoint]), views, then !== null)}
              </Check>
            ))}
          </fieldset>
          <fieldset className={styles.group}>
            <legend>{say`Views`}</legend>
            {offered.map((view) => (
              <Check key={view} checked={views.includes(view)} onChange={(on) => toggle(view, on)}>
                {VIEW_LABELS[view]}
              </Check>
            ))}
          </fieldset>
          <Choice
            label={say`For`}
            value={layout}
            options={[
              { value: 'phone', label: say`Phone` },
              { value: 'mail', label: say`Mail` },
              { value: 'full', label: say`All numbers` },
            ]}
            onChange={setLayout}
          />
          <Choice
            label={say`Kind of file`}
            value={format}
            options={[
              { value: 'jpeg', label: 'JPEG' },
              { value: 'png', label: say`PNG, exact` },
            ]}
            onChange={setFormat}
          />
          {layout === 'phone' ? null : (
            <Picker
              label={say`Width in pixels`}
              value={width}
              options={OFFERED_WIDTHS.map(String).map((value) => ({
                value,
                label: value === USUAL_WIDTH && format === 'jpeg' ? say`${value} (fits an email)` : value,
              }))}
              onChange={(value) => setWidth(value ?? USUAL_WIDTH)}
            />
          )}
          <p className={lay.soft}>{SENDING}</p>
          {swing.student.child === true ? <ConsentNote swing={swing} /> : null}
          <Button
            look="main"
            disabled={busy || checkpoints.length === 0}
            onPress={() => void attempt(() => saveStills(order))}
          >{say`Save stills`}</Button>
        </>
      )}
      <hr className={styles.rule} />
      <p
        className={lay.soft}
      >{say`What you found in your words, key thoughts and a drill: as a mail draft and as PDF.`}</p>
      <Button onPress={openLessonPage}>{say`Lesson page`}</Button>
      <hr className={styles.rule} />
      <p className={lay.soft}>{say`The swing as a file, with all that is named and marked on it.`}</p>
      <Button
        disabled={swing.clips.length === 0}
        onPress={() => void attempt(() => exportSwing(swing.swing.id))}
      >{say`Export swing`}</Button>
    </aside>
  );
}

/** What to know of a checkpoint that does not stand in every view. */
function whereInWords(has: readonly View[], views: readonly View[], compared: boolean): string {
  if (has.length === views.length) return '';
  if (has.length === 0) return compared ? say` (not named then and now)` : say` (not named)`;
  return say` (${has.map((view) => lowered(VIEW_LABELS[view])).join(', ')} only)`;
}
