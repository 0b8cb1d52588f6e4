import { useMemo, useState } from 'react';
import { say } from '../../core/model/say.ts';
import type { BookSwing } from '../../core/model/book.ts';
import { dayInWords } from '../../core/model/day-in-words.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS, VIEWS, VIEW_LABELS } from '../../core/model/words.ts';
import type { View } from '../../core/model/words.ts';
import { cellOf } from '../../core/report/cell.ts';
import { sheetCheckpoints } from '../../core/report/checkpoints.ts';
import { app } from '../shell/state/app-state.ts';
import { cellGesture } from './state/cell-gesture.ts';
import type { CellGesture } from './state/cell-gesture.ts';
import { useStore } from '../shell/state/store.ts';
import { withMarks } from '../swing/state/swing-edit.ts';
import { AddClip } from '../add-clip/add-clip.tsx';
import { ClipHead } from '../swing/clip-head.tsx';
import { swingsBefore } from './earlier-swings.ts';
import { PROPOSE_HINT, isUnnamed, proposeSwing } from '../bench/state/proposals.ts';
import { attempt } from '../shell/state/messages.ts';
import { nextOnSheet } from '../shell/next-step.ts';
import { Button } from '../controls/button.tsx';
import { ChangedSummary } from './changed-summary.tsx';
import { PairedReadings } from './paired-readings.tsx';
import { SendPanel } from './send-panel.tsx';
import { SheetCell } from './sheet-cell.tsx';
import styles from './sheet-page.module.css';
import { ThenPicker } from './then-picker.tsx';
import { useReport } from '../swing/use-report.ts';

interface Column {
  readonly view: View;
  readonly time: 'then' | 'now';
}

/**
 * The lesson sheet in the making: a grid of live stills, rows checkpoints, columns views (or then and now of each). A cell
 * opens on the bench; what stands here is what is sent.
 */
export function SheetPage({ swing }: { readonly swing: BookSwing }) {
  const then = useStore(app, (state) => state.then);
  const students = useStore(app, (state) => state.students);
  const earlier = useMemo(() => swingsBefore(swing, students ?? []), [swing, students]);
  const [all, setAll] = useState(false);
  // While a mark is dragged in a cell its readings follow.
  const gesture = useStore(cellGesture, (each) => each);
  const live = useMemo(() => withDraft(swing, gesture), [swing, gesture]);
  const report = useReport(live, then)?.report ?? null;
  const rows = all ? CHECKPOINTS : sheetCheckpoints(swing);
  const blocks = blocksOf(then);

  return (
    <div className={styles.layout}>
      <div className={styles.main}>
        <div className={styles.top}>
          <p className={styles.next} role="note" aria-label={say`Next step`}>
            <strong>{say`Next:`}</strong>{' '}
            {nextOnSheet(swing, then === null && earlier.some(({ sharesView }) => sharesView))}
          </p>
          <ProposeSwing swing={swing} />
          <ThenPicker swing={swing} students={students ?? []} earlier={earlier} />
        </div>
        {then === null || report === null ? null : <ChangedSummary report={report} />}
        {blocks.map((columns) => (
          <div key={columns.map(nameOf).join()} className={styles.grid}>
            {columns.map((column) => (
              <ColumnHead key={nameOf(column)} column={column} swing={swing} then={then} />
            ))}
            {rows.map((checkpoint) => (
              <div key={checkpoint} className={styles.row}>
                <h3 className={styles.rowHead}>{CHECKPOINT_LABELS[checkpoint]}</h3>
                {columns.map((column) => (
                  <SheetCell
                    key={nameOf(column)}
                    checkpoint={checkpoint}
                    view={column.view}
                    time={column.time}
                    swing={column.time === 'then' ? then : swing}
                    compared={then !== null}
                    withReadings={!isPair(columns)}
                    report={report}
                  />
                ))}
                {isPair(columns) && report !== null ? (
                  <PairedReadings
                    cell={cellOf(report, { view: columns[0].view, checkpoint })}
                    label={say`${CHECKPOINT_LABELS[checkpoint]}, ${VIEW_LABELS[columns[0].view]}, then and now`}
                  />
                ) : null}
              </div>
            ))}
          </div>
        ))}
        {rows.length === CHECKPOINTS.length && !all ? null : (
          <div>
            <Button look="quiet" onPress={() => setAll(!all)}>
              {all ? say`Show fewer checkpoints` : say`Show all eight checkpoints`}
            </Button>
          </div>
        )}
        <Questions all={[...(report?.questions ?? []), ...(report?.warnings ?? [])]} />
      </div>
      <SendPanel swing={swing} then={then} />
    </div>
  );
}

/** One press for what is to be found in all clips; the bench then leads through it. */
function ProposeSwing({ swing: { clips } }: { readonly swing: BookSwing }) {
  const busy = useStore(app, (state) => state.jobs.length > 0);
  const first = VIEWS.flatMap((view) => clips.filter((clip) => clip.view === view)).find(isUnnamed);
  if (first === undefined) return null;
  return (
    <Button
      look="quiet"
      hint={PROPOSE_HINT}
      disabled={busy}
      onPress={() => void attempt(() => proposeSwing(first))}
    >{say`Propose this swing`}</Button>
  );
}

/** Views beside each other; compared, each view for itself, then beside now, so that both pictures are large. */
function blocksOf(then: BookSwing | null): readonly (readonly Column[])[] {
  const isCompared = (view: View): boolean => then?.clips.some((clip) => clip.view === view) ?? false;
  const alone = VIEWS.filter((view) => !isCompared(view)).map((view): Column => ({ view, time: 'now' }));
  const compared = VIEWS.filter(isCompared).map((view): readonly Column[] => [
    { view, time: 'then' },
    { view, time: 'now' },
  ]);
  return alone.length === 0 ? compared : [...compared, alone];
}

/** Then and now of one view. */
function isPair(columns: readonly Column[]): columns is readonly [Column, Column] {
  return columns[0]?.time === 'then';
}

const nameOf = ({ view, time }: Column): string => `${view} ${time}`;

/** Which view, of which day, in which file. */
function ColumnHead(props: { readonly column: Column; readonly swing: BookSwing; readonly then: BookSwing | null }) {
  const { column, swing, then } = props;
  const source = column.time === 'then' ? then : swing;
  const clip = source?.clips.find((entry) => entry.view === column.view);
  return (
    <div className={styles.columnHead}>
      <h2>
        {VIEW_LABELS[column.view]}
        {then === null ? null : (
          <span className={styles.time} data-time={column.time}>
            {column.time === 'then' ? say`Then` : say`Now`}, {dayInWords(source?.lesson.date ?? '')}
          </span>
        )}
      </h2>
      {clip === undefined ? null : <ClipHead clip={clip} changeable={column.time === 'now'} />}
      {clip === undefined && column.time === 'now' ? <AddClip view={column.view} swing={swing} /> : null}
    </div>
  );
}

/** After all else, and held in sight: what comes up while marks are moved shifts nothing under the hand. Keys scroll it. */
function Questions({ all }: { readonly all: readonly string[] }) {
  if (all.length === 0) return null;
  return (
    <div className={styles.questions} role="region" tabIndex={0} aria-label={say`Questions about the marks`}>
      {all.map((warning) => (
        <p key={warning} className={styles.warning}>
          {warning}
        </p>
      ))}
    </div>
  );
}

function withDraft(swing: BookSwing, gesture: CellGesture | null): BookSwing {
  const draft = gesture?.draft ?? null;
  if (gesture === null || draft === null) return swing;
  return { ...swing, clips: swing.clips.map((clip) => (clip.id === gesture.clipId ? withMarks(clip, draft) : clip)) };
}
