import { useMemo } from 'react';
import type { CSSProperties } from 'react';
import { lowered, say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import type { BookSwing } from '../../core/model/book.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';
import { marksShownOn } from '../../core/model/swing.ts';
import type { Checkpoint, View } from '../../core/model/words.ts';
import { cellOf } from '../../core/report/cell.ts';
import type { LessonReport } from '../../core/report/lesson-report.ts';
import { cropOfClip } from '../../core/painting/crop.ts';
import { app } from '../shell/state/app-state.ts';
import { isBusy } from '../shell/state/jobs.ts';
import { lookFrom, proposals } from '../bench/state/open-proposals.ts';
import { openBench } from '../bench/state/bench-actions.ts';
import { nameFrame } from '../swing/state/edit-actions.ts';
import { useStore } from '../shell/state/store.ts';
import { Button } from '../controls/button.tsx';
import { DragOut } from '../controls/drag-out.tsx';
import { LivePicture } from './live-picture.tsx';
import { ReadingList } from './reading-list.tsx';
import styles from './sheet-page.module.css';
import { Still } from '../swing/still.tsx';
import { useIntoSight } from '../shell/use-into-sight.ts';
import { withKey } from '../shell/key-words.ts';
import { frameInWords } from '../shell/words.ts';
import { attempt } from '../shell/state/messages.ts';
import { copyStill, copyStillText, stillToDrag, type StillHere } from './state/copy-actions.ts';

export interface SheetCellProps {
  readonly checkpoint: Checkpoint;
  readonly view: View;
  readonly time: 'then' | 'now';
  readonly swing: BookSwing | null;
  readonly compared: boolean;
  /** Whether its readings stand in it, and not below then and now. */
  readonly withReadings: boolean;
  readonly report: LessonReport | null;
}

/** One still of the sheet, with its readings below where it stands alone. Of an earlier swing it is only looked at. */
export function SheetCell({ checkpoint, view, time, swing, compared, withReadings, report }: SheetCellProps) {
  const clip = swing?.clips.find((entry) => entry.view === view);
  const index = useStore(app, (state) => (clip === undefined ? undefined : state.indexes[clip.id]));
  const label = CHECKPOINT_LABELS[checkpoint];
  const crop = useMemo(() => (clip === undefined ? null : cropOfClip(clip)), [clip]);
  const cell = useIntoSight(clip, checkpoint);
  if (clip === undefined || index === undefined) {
    return <div className={`${styles.cell ?? ''} ${styles.empty ?? ''}`}>{say`No clip of this view.`}</div>;
  }
  const named = clip.checkpoints[checkpoint];
  if (named === undefined) {
    return (
      <div ref={cell} className={`${styles.cell ?? ''} ${styles.empty ?? ''}`}>
        <span>{say`Not named yet.`}</span>
        {time === 'then' ? null : (
          <Button
            label={say`Find ${label}, ${VIEW_LABELS[view]}`}
            onPress={() => openBench(clip.id, lookFrom(clip, checkpoint, proposals.get()), checkpoint)}
          >{said`Find ${lowered(label)}`}</Button>
        )}
      </div>
    );
  }
  const move = (by: number) => nameFrame(clip.id, checkpoint, named.index + by);
  const look = compared ? time : 'plain';
  const shape = crop ?? clip;
  return (
    <div
      ref={cell}
      className={`${styles.cell ?? ''} ${compared ? (styles[time] ?? '') : ''}`}
      {...(time === 'then' ? {} : { 'data-still-view': view, 'data-still-checkpoint': checkpoint })}
    >
      <div className={styles.picture} style={{ '--aspect': String(shape.width / shape.height) } as CSSProperties}>
        {time === 'then' ? (
          <div className={styles.still}>
            <Still clip={clip} index={named.index} marks={marksShownOn(clip, named)} look={look} crop={crop} />
          </div>
        ) : (
          <LivePicture
            clip={clip}
            frame={named}
            label={say`Open ${label}, ${VIEW_LABELS[view]}, on the bench`}
            look={look}
            crop={crop}
          />
        )}
        <div className={styles.nudge}>
          {time === 'then' ? null : (
            <Button
              small
              label={say`${label}: one frame earlier`}
              onPress={() => move(-1)}
              disabled={named.index === 0}
            >
              ‹
            </Button>
          )}
          <span>{frameInWords(clip, index, named.index)}</span>
          {time === 'then' ? null : (
            <Button
              small
              label={say`${label}: one frame later`}
              onPress={() => move(1)}
              disabled={named.index >= clip.frameCount - 1}
            >
              ›
            </Button>
          )}
        </div>
      </div>
      {time === 'then' ? null : <CopyStill view={view} checkpoint={checkpoint} />}
      {withReadings ? (
        <div className={styles.readings}>
          {report === null ? null : <ReadingList side={cellOf(report, { view, checkpoint })[time]} />}
        </div>
      ) : null}
    </div>
  );
}

/** The still of this row to be pasted, and what it says. */
function CopyStill({ view, checkpoint }: StillHere) {
  const where = `${CHECKPOINT_LABELS[checkpoint]}, ${VIEW_LABELS[view]}`;
  const busy = useStore(app, isBusy);
  return (
    <div className={styles.copy}>
      <Button
        small
        look="quiet"
        label={withKey(say`Copy still: ${where}`, 'copy-still')}
        disabled={busy}
        onPress={() => void attempt(() => copyStill({ view, checkpoint }))}
      >{say`Copy still`}</Button>
      <Button
        small
        look="quiet"
        label={say`Copy text: ${where}`}
        onPress={() => void attempt(() => copyStillText({ view, checkpoint }))}
      >{say`Copy text`}</Button>
      <DragOut prepare={() => stillToDrag({ view, checkpoint })} />
    </div>
  );
}
