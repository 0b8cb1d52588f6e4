import { memo, useEffect, useMemo, useRef, useState } from 'react';
import { lowered, say } from '../../../core/model/say.ts';
import { sameReading } from '../../../core/model/reading.ts';
import type { BookClip, BookSwing } from '../../../core/model/book.ts';
import type { Reading } from '../../../core/model/reading.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS, VIEW_LABELS } from '../../../core/model/words.ts';
import type { Checkpoint } from '../../../core/model/words.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { isDamaged } from '../../../core/time/damaged-spans.ts';
import { cellOf, type CellSide } from '../../../core/report/cell.ts';
import type { LessonReport } from '../../../core/report/lesson-report.ts';
import { app } from '../../shell/state/app-state.ts';
import { useStore } from '../../shell/state/store.ts';
import { IdleReadings, MissingReadings } from './missing-readings.tsx';
import { ReadingRow } from './reading-row.tsx';
import styles from './readings-panel.module.css';
import lay from '../../controls/lay.module.css';
import { readingsOfSelected } from '../surface/shown-sources.ts';
import { DAMAGED_FRAME } from '../../shell/words.ts';

/**
 * All readings of the swing: those of the view on the bench first, the checkpoint of its frame before the others; the
 * other view folded below. Those that are made from the selected mark are marked, and the first of them comes into sight.
 */
export const ReadingsPanel = memo(function ReadingsPanel(props: {
  readonly swing: BookSwing;
  readonly clip: BookClip;
  readonly report: LessonReport;
  /** The frame on the bench, and its name if it has one. */
  readonly at: number;
  readonly here: Checkpoint | null;
}) {
  const { swing, clip, report, at, here } = props;
  const ref = useRef<HTMLDivElement>(null);
  const selected = useStore(app, (state) => state.bench?.selected ?? null);
  const shown = useStore(app, (state) => state.bench?.shownReading ?? null);
  const fromSelected = useMemo(
    () => readingsOfSelected(report.now, selected, { clip, index: at }),
    [report.now, selected, clip, at],
  );
  useEffect(() => {
    if (selected !== null) bringIntoSight(ref.current, '[data-from]');
  }, [selected]);
  useEffect(() => {
    // Whoever goes through a chain link by link stays there.
    if (shown !== null && !inChains()) bringIntoSight(ref.current, '[data-shown]');
  }, [shown]);

  const clips = [clip, ...swing.clips.filter(({ id }) => id !== clip.id)];
  return (
    <div ref={ref} className={lay.wide}>
      {clips.map((each) => (
        <ViewReadings
          key={each.id}
          clip={each}
          report={report}
          here={each.id === clip.id ? here : null}
          isOnBench={each.id === clip.id}
          from={each.id === clip.id ? fromSelected : NONE}
          fromWords={selected?.kind === 'shape' ? say`from this shape` : say`from this point`}
        />
      ))}
    </div>
  );
});

const NONE: readonly Reading[] = [];

/** Whether the hand is on the chains of cause and effect. */
function inChains(): boolean {
  return (document.activeElement?.closest('[data-chains]') ?? null) !== null;
}

/** Only where the side scrolls by itself: with large text it stands below the picture, which must not run from the hand. */
function bringIntoSight(panel: HTMLElement | null, what: string): void {
  const side = panel?.closest('[data-scrolls]');
  if (panel === null || side === null || side === undefined || side.scrollHeight <= side.clientHeight) return;
  panel.querySelector(what)?.scrollIntoView({ block: 'nearest' });
}

interface ViewReadingsProps {
  readonly clip: BookClip;
  readonly report: LessonReport;
  readonly here: Checkpoint | null;
  readonly isOnBench: boolean;
  readonly from: readonly Reading[];
  readonly fromWords: string;
}

function ViewReadings(props: ViewReadingsProps) {
  const { clip, report, here, isOnBench } = props;
  const [opened, setOpened] = useState(false);
  const index = useStore(app, (state) => state.indexes[clip.id]);
  const named = CHECKPOINTS.filter((checkpoint) => clip.checkpoints[checkpoint] !== undefined);
  const order = here === null ? named : [here, ...named.filter((checkpoint) => checkpoint !== here)];
  const label = VIEW_LABELS[clip.view];
  const cells = order.map((checkpoint) => ({ checkpoint, ...cellOf(report, { view: clip.view, checkpoint }).now }));
  const count = cells.reduce((sum, { readings }) => sum + readings.length, 0);
  // The parts keep their places among their like, so that a row that is pressed in the other view keeps the focus when
  // its view comes to the top.
  return (
    <section className={styles.view} aria-label={say`Readings, ${lowered(label)}`}>
      <h3 key="head">
        {isOnBench ? (
          label
        ) : (
          <button type="button" className={styles.fold} aria-expanded={opened} onClick={() => setOpened(!opened)}>
            <span>{label}</span>
            <span className={lay.soft}>{count === 1 ? say`1 reading` : say`${String(count)} readings`}</span>
          </button>
        )}
      </h3>
      {isOnBench || opened ? (
        <div key="checkpoints" className={lay.wide}>
          {order.length === 0 ? (
            <p
              className={lay.soft}
            >{say`No frame of this clip has a name yet. Go to address, top or impact and say above which it is: its readings come here.`}</p>
          ) : null}
          {cells.map(({ checkpoint, ...side }) => (
            <CheckpointReadings
              key={checkpoint}
              {...props}
              checkpoint={checkpoint}
              damaged={isOnDamage(clip, index, checkpoint)}
              side={side}
            />
          ))}
        </div>
      ) : null}
    </section>
  );
}

function isOnDamage(clip: BookClip, index: ClipIndex | undefined, checkpoint: Checkpoint): boolean {
  const named = clip.checkpoints[checkpoint];
  return named !== undefined && index !== undefined && isDamaged(index, named.index);
}

interface CheckpointReadingsProps extends ViewReadingsProps {
  readonly checkpoint: Checkpoint;
  readonly damaged: boolean;
  readonly side: CellSide;
}

function CheckpointReadings(props: CheckpointReadingsProps) {
  const { clip, checkpoint, side, from, here, isOnBench } = props;
  const { readings } = side;
  const pinned = readings.filter(({ pin }) => pin === 'pinned').length;
  const at = CHECKPOINT_LABELS[checkpoint];
  const name = isOnBench ? at : `${at}, ${lowered(VIEW_LABELS[clip.view])}`;
  return (
    <section className={styles.group} aria-label={say`Readings at ${name}`}>
      <div className={styles.head}>
        <h4>{at}</h4>
        <span>
          {checkpoint === here ? say`this frame` : null}
          {checkpoint === here && readings.length > 0 ? ', ' : null}
          {readings.length === 0
            ? null
            : readings.every(({ isOnStill }) => isOnStill) && pinned === 0
              ? say`nothing chosen: the still shows what changed`
              : say`${String(pinned)} on the still`}
        </span>
      </div>
      {props.damaged ? <p className={styles.damaged}>{DAMAGED_FRAME}</p> : null}
      <ul>
        {readings.map((shown) => (
          <ReadingRow
            key={`${shown.reading.id} ${shown.reading.aspect}`}
            clip={clip}
            {...shown}
            from={from.some((each) => sameReading(each, shown.reading)) ? props.fromWords : null}
          />
        ))}
      </ul>
      <MissingReadings unread={side.missing} open={readings.length === 0} />
      <IdleReadings unread={side.idle} open={side.isAsked} />
    </section>
  );
}
