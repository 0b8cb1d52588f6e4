import { useMemo, useRef } from 'react';
import type { BookClip } from '../../../core/model/book.ts';
import { dayInWords } from '../../../core/model/day-in-words.ts';
import { carriedIds, marksShownOn } from '../../../core/model/swing.ts';
import { VIEW_LABELS } from '../../../core/model/words.ts';
import { drawListOf } from '../../../core/painting/draw-list.ts';
import { labelTextsOf } from '../../../core/painting/mark-labels.ts';
import type { Box } from '../../../core/painting/box.ts';
import type { DrawItem } from '../../../core/painting/draw-item.ts';
import { paint } from '../../../core/painting/paint.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import type { ViewLock } from '../../../core/time/lock-views.ts';
import { labelSize } from '../../canvas/label-size.ts';
import { setCompanionPicture } from '../../canvas/shown-picture.ts';
import { fitted } from '../../canvas/view-transform.ts';
import type { ViewTransform } from '../../canvas/view-transform.ts';
import { run } from '../playback/state/playback.ts';
import { app } from '../../shell/state/app-state.ts';
import { chooseCompanion, nameOfClip, pair, swapViews } from '../state/companion.ts';
import type { CompanionChoice } from '../state/companion.ts';
import { filterOf, pictureLight } from '../state/picture-light.ts';
import { useStore } from '../../shell/state/store.ts';
import styles from './companion.module.css';
import { Button } from '../../controls/button.tsx';
import { usePicture } from './use-picture.ts';
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
  const title = VIEW_LABELS[clip.view] + (date === undefined ? '' : `, then, ${dayInWords(date)}`);
  const frame = lock?.frameFor(at) ?? 0;
  return (
    <div className={styles.companion}>
      {lock === null ? (
        <p className={styles.needs}>{needs}</p>
      ) : (
        <Picture
          {...{ clip, lock, marksOf }}
          frames={index.frames}
          label={`${title}, ${frameInWords(clip, index, frame)}`}
        />
      )}
      {choice === 'other' ? (
        <button
          type="button"
          className={styles.swap}
          aria-label={`Swap: mark on ${nameOfClip(clip, choice)}`}
          title={`Press to mark on ${nameOfClip(clip, choice)}`}
          onClick={() => swapViews(frame)}
        />
      ) : null}
      <span className={styles.plate} data-look={look}>
        <strong>{title}</strong>
        {lock === null ? null : <span>{frameInWords(clip, index, frame)}</span>}
      </span>
      <div className={styles.away}>
        <Button small label={`Put ${nameOfClip(clip, choice)} away`} onPress={() => chooseCompanion('none')}>
          ×
        </Button>
      </div>
    </div>
  );
}

interface CompanionPicture {
  readonly clip: BookClip;
  readonly frames: ClipIndex['frames'];
  readonly lock: ViewLock;
  /** What is drawn over a frame. */
  readonly marksOf: (index: number) => readonly DrawItem[];
}

/** The picture in the chosen light, and its marks on a canvas above it, which the light leaves alone. */
function Picture({ label, clip, frames, lock, marksOf }: CompanionPicture & { readonly label: string }) {
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const marksRef = useRef<HTMLCanvasElement>(null);
  const filter = useStore(pictureLight, filterOf);
  const { width, height } = clip;
  const source = useMemo(
    (): PictureSource => ({
      view: (canvas) => fitted({ width, height }, { width: canvas.clientWidth, height: canvas.clientHeight }),
      wanted() {
        const { bench } = app.get();
        if (bench === null) return null;
        const { running, every } = run.get();
        const index = lock.frameFor(bench.index);
        setCompanionPicture({ wanted: index });
        return { index, every: running ? Math.max(1, lock.frameFor(bench.index + every) - index) : 0 };
      },
      shown: (index) => setCompanionPicture({ shown: index }),
      painted(canvas, view, index) {
        const over = marksRef.current;
        if (over === null) return;
        paintMarksOver(over, canvas, view, index === null ? [] : marksOf(index), { x: 0, y: 0, width, height });
      },
      gone: () => setCompanionPicture(null),
    }),
    [width, height, lock, marksOf],
  );
  usePicture(canvasRef, clip, frames, source);
  return (
    <>
      <canvas ref={canvasRef} role="img" aria-label={label} style={{ filter }} />
      <canvas ref={marksRef} aria-hidden="true" />
    </>
  );
}

function paintMarksOver(
  over: HTMLCanvasElement,
  { width, height, clientWidth }: HTMLCanvasElement,
  view: ViewTransform,
  items: readonly DrawItem[],
  visible: Box,
): void {
  const context = over.getContext('2d');
  if (context === null) return;
  if (over.width !== width || over.height !== height) [over.width, over.height] = [width, height];
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.clearRect(0, 0, width, height);
  const ratio = width / Math.max(1, clientWidth);
  const scale = view.zoom * ratio;
  context.setTransform(scale, 0, 0, scale, view.panLeft * ratio, view.panTop * ratio);
  paint(context, items, { scale, unit: ratio, textSize: labelSize(ratio), visible });
}
