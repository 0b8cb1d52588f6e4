import { useMemo, useRef } from 'react';
import type { BookClip } from '../../core/model/book.ts';
import type { FrameRef } from '../../core/model/frame.ts';
import { carriedTo } from '../../core/model/swing.ts';
import type { Box } from '../../core/painting/box.ts';
import type { Style } from '../../core/painting/styles.ts';
import { openBench } from '../bench/state/bench-actions.ts';
import { cellGesture } from './state/cell-gesture.ts';
import { useStore } from '../shell/state/store.ts';
import { marksOn } from '../swing/state/swing-edit.ts';
import styles from './sheet-page.module.css';
import { Still } from '../swing/still.tsx';
import { draftOf, useCellDrag } from './use-cell-drag.ts';

/** The picture of a cell of now: its marks can be dragged where they are, and a press beside them opens the bench. */
export function LivePicture(props: {
  readonly clip: BookClip;
  readonly frame: FrameRef;
  readonly label: string;
  readonly look: Style;
  readonly crop: Box | null;
}) {
  const { clip, frame, label, look, crop } = props;
  const boxRef = useRef<HTMLDivElement>(null);
  const own = useMemo(() => marksOn(clip, { index: frame.index, pts: frame.pts }), [clip, frame.index, frame.pts]);
  const part = useMemo(() => crop ?? { x: 0, y: 0, width: clip.width, height: clip.height }, [crop, clip]);
  const cell = useMemo(() => ({ clipId: clip.id, marks: own, part }), [clip.id, own, part]);
  const draft = useStore(cellGesture, (gesture) => draftOf(gesture, clip.id, frame.index));
  useCellDrag(boxRef, cell);
  const shown = useMemo(() => {
    const marks = draft ?? own;
    return { ...marks, shapes: [...carriedTo(clip, frame.index), ...marks.shapes] };
  }, [draft, own, clip, frame.index]);
  return (
    <button type="button" className={styles.open} aria-label={label} onClick={() => openBench(clip.id, frame.index)}>
      <Still boxRef={boxRef} clip={clip} index={frame.index} marks={shown} look={look} crop={crop} />
    </button>
  );
}
