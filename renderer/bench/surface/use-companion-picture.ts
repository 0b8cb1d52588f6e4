import { useEffect, useRef } from 'react';
import type { RefObject } from 'react';
import type { BookClip } from '../../../core/model/book.ts';
import type { DrawItem } from '../../../core/painting/draw-item.ts';
import { paint } from '../../../core/painting/paint.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import type { ViewLock } from '../../../core/time/lock-views.ts';
import { createFramePictures } from '../../canvas/frame-pictures.ts';
import { labelSize } from '../../canvas/label-size.ts';
import { paintPicture } from '../../canvas/paint-picture.ts';
import { setCompanionPicture } from '../../canvas/shown-picture.ts';
import type { ShownPicture } from '../../canvas/shown-picture.ts';
import { fitted } from '../../canvas/view-transform.ts';
import { app } from '../../shell/state/app-state.ts';
import { tellTrouble } from '../../shell/state/messages.ts';
import { run } from '../playback/state/playback.ts';
import { TRY_AGAIN, feed, isStopped } from '../../swing/feed.ts';

export interface CompanionPicture {
  readonly clip: BookClip;
  readonly frames: ClipIndex['frames'];
  readonly lock: ViewLock;
  /** What is drawn over a frame. */
  readonly marksOf: (index: number) => readonly DrawItem[];
}

/**
 * Keeps the companion's canvas on the frame that goes with the one on the bench, its marks with it. Follows the stores, as
 * the bench's own picture does, so that both change together. The canvas says what it shows: `data-shown`, `data-quality`.
 */
export function useCompanionPicture(
  { clip, frames, lock, marksOf }: CompanionPicture,
  canvasRef: RefObject<HTMLCanvasElement | null>,
  marksRef: RefObject<HTMLCanvasElement | null>,
): void {
  const { id, width, height } = clip;
  // Names and marks change more often than the clip: its pictures stay when they do.
  const latest = useRef({ lock, marksOf });
  const again = useRef<() => void>(() => undefined);
  useEffect(() => {
    latest.current = { lock, marksOf };
    again.current();
  }, [lock, marksOf]);

  useEffect(() => {
    const [canvas, over] = [canvasRef.current, marksRef.current];
    if (canvas === null || over === null) return;
    let picture: ImageBitmap | null = null;
    let shown: number | null = null;
    let wanted = -1;

    const repaint = () => {
      const view = fitted({ width, height }, { width: canvas.clientWidth, height: canvas.clientHeight });
      paintPicture(canvas, picture, width, height, view);
      const context = over.getContext('2d');
      if (context === null) return;
      context.setTransform(1, 0, 0, 1, 0, 0);
      context.clearRect(0, 0, over.width, over.height);
      if (picture === null || shown === null) return;
      const ratio = canvas.width / Math.max(1, canvas.clientWidth);
      const scale = view.zoom * ratio;
      context.setTransform(scale, 0, 0, scale, view.panLeft * ratio, view.panTop * ratio);
      const visible = { x: 0, y: 0, width, height };
      paint(context, latest.current.marksOf(shown), { scale, unit: ratio, textSize: labelSize(ratio), visible });
    };
    const show = (next: ImageBitmap | null, index: number, quality: ShownPicture['quality']) => {
      picture = next;
      shown = index;
      repaint();
      setCompanionPicture({ wanted, shown });
      canvas.dataset['quality'] = quality;
      canvas.dataset['shown'] = String(index);
    };
    const pictures = createFramePictures<ImageBitmap>({
      frameCount: frames.length,
      load: (index, quality, signal) => feed.picture(id, index, quality, signal),
      show,
      failed(error, index) {
        show(null, index, 'none');
        tellTrouble(error, isStopped(error) ? TRY_AGAIN : null);
      },
    });
    const follow = () => {
      const { bench } = app.get();
      if (bench === null) return;
      const { running, every } = run.get();
      const { lock } = latest.current;
      const next = lock.frameFor(bench.index);
      const pass = running ? Math.max(1, lock.frameFor(bench.index + every) - next) : 0;
      if (next !== wanted) setCompanionPicture({ wanted: next, shown });
      wanted = next;
      pictures.want(next, pass);
    };
    const fill = () => {
      for (const each of [canvas, over]) {
        each.width = Math.max(1, Math.round(canvas.clientWidth * window.devicePixelRatio));
        each.height = Math.max(1, Math.round(canvas.clientHeight * window.devicePixelRatio));
      }
      repaint();
    };
    fill();
    follow();
    const observer = new ResizeObserver(fill);
    observer.observe(canvas);
    const stops = [app.subscribe(follow), run.subscribe(follow), feed.onStartAgain(() => pictures.wantAgain())];
    again.current = () => {
      follow();
      repaint();
    };
    return () => {
      again.current = () => undefined;
      for (const stop of stops) stop();
      observer.disconnect();
      pictures.close();
      setCompanionPicture(null);
      feed.leave(id);
    };
  }, [id, width, height, frames, canvasRef, marksRef]);
}
