import { useEffect, useRef, useState } from 'react';
import type { RefObject } from 'react';
import { say } from '../../core/model/say.ts';
import type { BookClip } from '../../core/model/book.ts';
import type { FrameMarks } from '../../core/model/mark.ts';
import type { PictureQuality } from '../../core/model/picture-layout.ts';
import { carriedIds } from '../../core/model/swing.ts';
import type { Box } from '../../core/painting/box.ts';
import { drawListOf } from '../../core/painting/draw-list.ts';
import { labelTextsOf } from '../../core/painting/mark-labels.ts';
import type { Style } from '../../core/painting/styles.ts';
import { paint } from '../../core/painting/paint.ts';
import { learnMeanColour, meanColourOf } from '../canvas/mean-colour.ts';
import type { ShownStill } from '../canvas/still-pictures.ts';
import { tellTrouble } from '../shell/state/messages.ts';
import { TRY_AGAIN, isStopped, stills } from './feed.ts';
import styles from './still.module.css';

export interface StillProps {
  readonly clip: BookClip;
  readonly index: number;
  readonly marks: FrameMarks | null;
  readonly look: Style;
  /** `proxy` where the picture is so small that the sharp one would look the same. */
  readonly quality?: PictureQuality;
  /** Whether the numbers of shapes stand beside them. */
  readonly labelled?: boolean;
  /** The part that is shown, in picture coordinates; without it the whole. */
  readonly crop?: Box | null;
  /** The element that the picture fills. */
  readonly boxRef?: RefObject<HTMLDivElement | null>;
}

/**
 * A small live picture of a frame with what is marked on it. The canvas says what it shows: `data-still` (proxy or sharp)
 * and `data-frame`.
 */
export function Still(props: StillProps) {
  const { clip, index, marks, look, quality = 'sharp', labelled = false, crop = null, boxRef } = props;
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const [still, setStill] = useState<ShownStill | null>(null);
  /** How often a picture was asked for that had been closed since it came. */
  const [again, setAgain] = useState(0);
  const [width, setWidth] = useState(0);
  const [failed, setFailed] = useState(false);
  const near = useNear(canvasRef);

  useEffect(() => {
    if (!near) return;
    return stills.follow(
      { clip: clip.id, frame: index, quality },
      (came) => {
        if (came.picture.width > 0) learnMeanColour(clip.id, came.picture);
        setFailed(false);
        setStill(came);
      },
      (error) => {
        setFailed(true);
        if (isStopped(error)) tellTrouble(error, TRY_AGAIN);
      },
    );
  }, [near, clip.id, index, quality, again]);

  useEffect(() => {
    const canvas = canvasRef.current;
    if (canvas === null) return;
    const observer = new ResizeObserver(() => setWidth(canvas.clientWidth));
    observer.observe(canvas);
    return () => observer.disconnect();
  }, []);

  useEffect(() => {
    const canvas = canvasRef.current;
    if (canvas === null || width === 0 || still === null) return;
    const { of, picture } = still;
    // Another frame's picture under this frame's marks would be a lie.
    if (of.clip !== clip.id || of.frame !== index) return;
    if (picture.width === 0) {
      setAgain((times) => times + 1);
      return;
    }
    // Not before there is something to draw: a canvas with a context is black.
    const context = canvas.getContext('2d', { alpha: false });
    if (context === null) return;
    const ratio = window.devicePixelRatio;
    const part = crop ?? { x: 0, y: 0, width: clip.width, height: clip.height };
    const scale = (width * ratio) / part.width;
    canvas.width = Math.round(part.width * scale);
    canvas.height = Math.round(part.height * scale);
    context.setTransform(scale, 0, 0, scale, -part.x * scale, -part.y * scale);
    context.imageSmoothingQuality = 'high';
    context.drawImage(picture, 0, 0, clip.width, clip.height);
    canvas.dataset['still'] = still.quality;
    canvas.dataset['frame'] = String(index);
    if (marks === null) return;
    const labels = labelled ? labelTextsOf(marks, clip) : {};
    const quiet = carriedIds(clip, index);
    const items = drawListOf(marks, { look, width: clip.width, height: clip.height, labels, quiet });
    paint(context, items, { scale, unit: ratio * strokeFor(width), visible: part });
  }, [still, width, marks, look, labelled, crop, clip, index]);

  const shape = crop ?? clip;
  return (
    <div
      ref={boxRef}
      className={styles.still}
      data-place="still"
      style={{ aspectRatio: `${String(shape.width)} / ${String(shape.height)}`, background: meanColourOf(clip.id) }}
    >
      <canvas ref={canvasRef} className={styles.canvas} aria-hidden="true" />
      {failed ? <span className={styles.failed}>{say`no picture`}</span> : null}
    </div>
  );
}

/** Thinner than this a line of a point's ring is lost over grass. */
const LEAST_STROKE = 0.6;

/** Marks are drawn thinner on smaller stills, so that they do not hide the player: as on the bench from 520 px on. */
function strokeFor(width: number): number {
  return Math.min(1, Math.max(LEAST_STROKE, width / 520));
}

/** Far enough outside the visible part that a picture is there when it is scrolled into sight. */
const NEAR = '300px';

/** Whether the element is in sight or nearly so; once it was, it stays so. */
function useNear(ref: RefObject<HTMLElement | null>): boolean {
  const [near, setNear] = useState(false);
  useEffect(() => {
    const element = ref.current;
    if (element === null || near) return;
    const observer = new IntersectionObserver(
      (entries) => {
        if (entries.some((entry) => entry.isIntersecting)) setNear(true);
      },
      { rootMargin: NEAR },
    );
    observer.observe(element);
    return () => observer.disconnect();
  }, [ref, near]);
  return near;
}
