import { useMemo } from 'react';
import { say } from '../../../core/model/say.ts';
import type { BookClip } from '../../../core/model/book.ts';
import { dayInWords } from '../../../core/model/day-in-words.ts';
import { carriedIds, marksShownOn } from '../../../core/model/swing.ts';
import { VIEW_LABELS } from '../../../core/model/words.ts';
import { playerOfClip } from '../../../core/painting/crop.ts';
import { drawListOf } from '../../../core/painting/draw-list.ts';
import { labelTextsOf } from '../../../core/painting/mark-labels.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import type { ViewLock } from '../../../core/time/lock-views.ts';
import { setCompanionPicture } from '../../canvas/shown-picture.ts';
import { fitted, fittedTo } from '../../canvas/view-transform.ts';
import { run } from '../playback/state/playback.ts';
import { app } from '../../shell/state/app-state.ts';
import { chooseCompanion, nameOfClip, pair, swapViews } from '../state/companion.ts';
import type { CompanionChoice } from '../state/companion.ts';
import { useStore } from '../../shell/state/store.ts';
import styles from './companion.module.css';
import { Button } from '../../controls/button.tsx';
import { LookedAt } from './looked-at.tsx';
import type { PictureSource } from './use-picture.ts';
import { frameInWords } from '../../shell/words.ts';

interface Side {
  readonly clip: BookClip;
  readonly index: ClipIndex;
}

export interface CompanionViewProps {
  readonly main: Side;
  readonly other: Side;
  readonly choice: Exclude<CompanionChoice, 'none'>;
}

/** The other picture beside the one on the bench: the same instant, with its marks, to look at and not to mark on. */
export function CompanionView({ main, other, choice }: CompanionViewProps) {
  const at = useStore(app, (state) => state.bench?.index ?? 0);
  const date = useStore(app, (state) => (choice === 'then' ? state.then?.lesson.date : undefined));
  const look = useStore(app, (state) => (choice === 'then' ? 'then' : state.then === null ? 'plain' : 'now'));
  const { clip, index } = other;
  const { lock, needs } = useMemo(() => pair(main, other, choice), [main, other, choice]);
  const marksOf = useMemo(
    () => (frame: number) => {
      const shown = index.frames[frame];
      if (shown === undefined) return [];
      const marks = marksShownOn(clip, { index: frame, pts: shown.pts });
      return drawListOf(marks, {
        look,
        width: clip.width,
        height: clip.height,
        labels: labelTextsOf(marks, clip),
        quiet: carriedIds(clip, frame),
      });
    },
    [clip, index.frames, look],
  );
  const title = VIEW_LABELS[clip.view] + (date === undefined ? '' : say`, then, ${dayInWords(date)}`);
  const frame = lock?.frameFor(at) ?? 0;
  const source = useMemo(() => (lock === null ? NO_PICTURE : companionPictureOf(clip, lock)), [clip, lock]);
  return (
    <div className={styles.companion}>
      {lock === null ? (
        <p className={styles.needs}>{needs}</p>
      ) : (
        <LookedAt
          {...{ clip, source, marksOf }}
          frames={index.frames}
          label={`${title}, ${frameInWords(clip, index, frame)}`}
        />
      )}
      {choice === 'other' ? (
        <button
          type="button"
          className={styles.swap}
          aria-label={say`Swap: mark on ${nameOfClip(clip, choice)}`}
          title={say`Press to mark on ${nameOfClip(clip, choice)}`}
          onClick={() => swapViews(frame)}
        />
      ) : null}
      <span className={styles.plate} data-look={look}>
        <strong>{title}</strong>
        {lock === null ? null : <span>{frameInWords(clip, index, frame)}</span>}
      </span>
      <div className={styles.away}>
        <Button small label={say`Put ${nameOfClip(clip, choice)} away`} onPress={() => chooseCompanion('none')}>
          ×
        </Button>
      </div>
    </div>
  );
}

type CompanionPicture = Omit<PictureSource, 'painted'>;

const NOTHING = { width: 1, height: 1 };
const NO_PICTURE: CompanionPicture = {
  wanted: () => null,
  view: () => fitted(NOTHING, NOTHING),
  shown: () => undefined,
};

/** The frame that goes with the one on the bench, fitted to the player. */
function companionPictureOf(clip: BookClip, lock: ViewLock): CompanionPicture {
  const player = playerOfClip(clip);
  return {
    view({ clientWidth, clientHeight }) {
      const room = { width: clientWidth, height: clientHeight };
      return player === null ? fitted(clip, room) : fittedTo(player, clip, room);
    },
    wanted() {
      const { bench } = app.get();
      if (bench === null) return null;
      const { running, every } = run.get();
      const index = lock.frameFor(bench.index);
      setCompanionPicture({ wanted: index });
      return { index, every: running ? Math.max(1, lock.frameFor(bench.index + every) - index) : 0 };
    },
    shown: (index) => setCompanionPicture({ shown: index }),
    gone: () => setCompanionPicture(null),
  };
}
