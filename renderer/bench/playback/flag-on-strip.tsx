import { useMemo, useRef, useState } from 'react';
import type { PointerEvent, RefObject } from 'react';
import { say } from '../../../core/model/say.ts';
import type { BookClip } from '../../../core/model/book.ts';
import { CHECKPOINT_LABELS } from '../../../core/model/words.ts';
import { playerOfClip } from '../../../core/painting/crop.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { app } from '../../shell/state/app-state.ts';
import { frameInWords } from '../../shell/words.ts';
import { nameFrame } from '../../swing/state/edit-actions.ts';
import { Still } from '../../swing/still.tsx';
import { goTo } from '../state/bench-actions.ts';
import { frameOnStrip, placeOnStrip } from './flags.ts';
import type { Flag } from './flags.ts';
import styles from './time-bar.module.css';

export interface FlagOnStripProps {
  readonly clip: BookClip;
  readonly index: ClipIndex;
  readonly flag: Flag;
  /** Of the strip, CSS pixels. */
  readonly width: number;
  readonly here: boolean;
  readonly stripRef: RefObject<HTMLElement | null>;
}

/** CSS pixels that a hand may tremble while it presses. */
const STILL = 4;
/** Half the width of the picture, which stays over the strip. */
const HALF_PICTURE = 64;

/**
 * A named frame over the strip: pressed, the bench goes there; dragged, the name goes with it and the bench shows where to;
 * where the pointer rests, or the focus, its picture. Esc leaves the name where it was.
 */
export function FlagOnStrip({ clip, index, flag, width, here, stripRef }: FlagOnStripProps) {
  const { checkpoint } = flag;
  const named = clip.checkpoints[checkpoint]?.index ?? 0;
  const last = index.frames.length - 1;
  const [dragged, setDragged] = useState<number | null>(null);
  const [looked, setLooked] = useState(false);
  const press = useRef<{ readonly x: number; readonly from: number } | null>(null);
  /** A press that became a drag is no press any more. */
  const wasDrag = useRef(false);
  const player = useMemo(() => playerOfClip(clip), [clip]);
  const left = dragged === null ? flag.left : placeOnStrip(dragged, last, width);
  const words = `${CHECKPOINT_LABELS[checkpoint]}, ${frameInWords(clip, index, dragged ?? named)}`;

  const onMove = (event: PointerEvent): void => {
    const strip = stripRef.current;
    if (press.current === null || strip === null) return;
    if (dragged === null && Math.abs(event.clientX - press.current.x) < STILL) return;
    wasDrag.current = true;
    const frame = frameOnStrip(event.clientX - strip.getBoundingClientRect().left, last, width);
    setDragged(frame);
    goTo(frame);
  };
  const letGo = (keep: boolean): void => {
    const from = press.current?.from;
    press.current = null;
    if (dragged === null) return;
    setDragged(null);
    if (keep) nameFrame(clip.id, checkpoint, dragged);
    else if (from !== undefined) goTo(from);
  };
  return (
    <span className={styles.flag} data-row={flag.row} data-here={here} data-dragged={dragged !== null} style={{ left }}>
      {/* From an end by the place of that end, not by a width that is guessed. */}
      <button
        type="button"
        aria-label={words}
        title={say`${words}. Drag to move the name`}
        data-from={flag.from}
        style={flag.from === 'start' ? { left: -left } : flag.from === 'end' ? { right: left - width } : undefined}
        onClick={() => {
          if (!wasDrag.current) goTo(named);
          wasDrag.current = false;
        }}
        onPointerDown={(event) => {
          if (event.button !== 0) return;
          event.currentTarget.setPointerCapture(event.pointerId);
          wasDrag.current = false;
          press.current = { x: event.clientX, from: app.get().bench?.index ?? named };
        }}
        onPointerMove={onMove}
        onPointerUp={() => letGo(true)}
        onPointerCancel={() => letGo(false)}
        onKeyDown={(event) => {
          if (event.key !== 'Escape' || dragged === null) return;
          event.preventDefault();
          event.stopPropagation();
          letGo(false);
        }}
        onPointerEnter={() => setLooked(true)}
        onPointerLeave={() => setLooked(false)}
        onFocus={(event) => setLooked(event.target.matches(':focus-visible'))}
        onBlur={() => setLooked(false)}
      >
        {flag.text}
      </button>
      {looked && dragged === null ? (
        <span
          className={styles.peek}
          style={{ left: Math.min(width - HALF_PICTURE, Math.max(HALF_PICTURE, left)) - left - HALF_PICTURE }}
        >
          <Still clip={clip} index={named} marks={null} look="plain" quality="proxy" crop={player} />
        </span>
      ) : null}
    </span>
  );
}
