import { useEffect, useRef, useState } from 'react';
import type { BookClip } from '../../core/model/book.ts';
import type { FrameMarks } from '../../core/model/mark.ts';
import { drawListOf } from '../../core/painting/draw-list.ts';
import type { Look } from '../../core/painting/looks.ts';
import { paint } from '../../core/painting/paint.ts';
import { frameUrl } from '../api.ts';
import { loadPicture } from '../canvas/load-picture.ts';
import styles from './still.module.css';

export interface StillProps {
  readonly clip: BookClip;
  readonly index: number;
  readonly marks: FrameMarks | null;
  readonly look: Look;
  /** Stroke thickness against that of the bench, > 0. */
  readonly stroke: number;
}

/**
 * A small live picture of a frame with what is marked on it. It is for finding one's way; the quick picture serves. The
 * bench shows the exact one.
 */
export function Still({ clip, index, marks, look, stroke }: StillProps) {
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const [picture, setPicture] = useState<ImageBitmap | null>(null);
  const [width, setWidth] = useState(0);
  const [failed, setFailed] = useState(false);

  useEffect(() => {
    const controller = new AbortController();
    let mine: ImageBitmap | null = null;
    loadPicture(frameUrl(clip.id, index, 'quick'), controller.signal).then(
      (loaded) => {
        if (controller.signal.aborted) return loaded.close();
        mine = loaded;
        setFailed(false);
        setPicture(loaded);
      },
      () => {
        if (!controller.signal.aborted) setFailed(true);
      },
    );
    return () => {
      controller.abort();
      mine?.close();
    };
  }, [clip.id, index]);

  useEffect(() => {
    const canvas = canvasRef.current;
    if (canvas === null) return;
    const observer = new ResizeObserver(() => setWidth(canvas.clientWidth));
    observer.observe(canvas);
    return () => observer.disconnect();
  }, []);

  useEffect(() => {
    const canvas = canvasRef.current;
    const context = canvas?.getContext('2d', { alpha: false }) ?? null;
    if (canvas === null || context === null || width === 0 || picture === null || picture.width === 0) return;
    const ratio = window.devicePixelRatio;
    const scale = (width * ratio) / clip.width;
    canvas.width = Math.round(clip.width * scale);
    canvas.height = Math.round(clip.height * scale);
    context.setTransform(scale, 0, 0, scale, 0, 0);
    context.imageSmoothingQuality = 'high';
    context.drawImage(picture, 0, 0, clip.width, clip.height);
    if (marks === null) return;
    const items = drawListOf(marks, { look, width: clip.width, height: clip.height });
    paint(context, items, { scale, unit: ratio * stroke });
  }, [picture, width, marks, look, stroke, clip.width, clip.height]);

  return (
    <div className={styles.still} style={{ aspectRatio: `${String(clip.width)} / ${String(clip.height)}` }}>
      <canvas ref={canvasRef} className={styles.canvas} aria-hidden="true" />
      {failed ? <span className={styles.failed}>no picture</span> : null}
    </div>
  );
}
