import { useEffect } from 'react';
import type { RefObject } from 'react';
import type { BookClip } from '../../core/model/book.ts';
import { setBenchPicture } from '../canvas/bench-content.ts';
import { benchView } from '../canvas/bench-view.ts';
import { paintPicture } from '../canvas/paint-picture.ts';
import { tellTrouble } from '../shell/state/messages.ts';
import { setRepeatExact } from './state/repeat-check.ts';
import { TRY_AGAIN, feed, isStopped } from '../swing/feed.ts';

/**
 * Brings the exact picture of one frame to the canvas; nothing is shown until it is there. The canvas says what it shows
 * as the bench's does: `data-shown`, `data-quality`, `data-zoom`, `data-left`, `data-top`.
 */
export function useRepeatPicture(clip: BookClip, index: number, canvasRef: RefObject<HTMLCanvasElement | null>): void {
  const { id, width, height } = clip;
  useEffect(() => {
    const stop = new AbortController();
    let picture: ImageBitmap | null = null;
    const repaint = () => {
      const canvas = canvasRef.current;
      if (canvas === null) return;
      const { view } = benchView.get();
      paintPicture(canvas, picture, width, height, view);
      canvas.dataset['zoom'] = String(view.zoom);
      canvas.dataset['left'] = String(view.panLeft);
      canvas.dataset['top'] = String(view.panTop);
      canvas.dataset['quality'] = picture === null ? 'none' : 'sharp';
      canvas.dataset['shown'] = String(index);
    };
    setRepeatExact(false);
    repaint();
    const stopPainting = benchView.subscribe(repaint);
    const load = () =>
      feed.picture(id, index, 'sharp', stop.signal).then(
        (came) => {
          if (stop.signal.aborted) return came.close();
          picture?.close();
          picture = came;
          setBenchPicture(came);
          repaint();
          setRepeatExact(true);
        },
        (error: unknown) => {
          if (!stop.signal.aborted) tellTrouble(error, isStopped(error) ? TRY_AGAIN : null);
        },
      );
    void load();
    const stopWaiting = feed.onStartAgain(() => void load());
    return () => {
      stop.abort();
      stopWaiting();
      stopPainting();
      setBenchPicture(null);
      picture?.close();
    };
  }, [id, width, height, index, canvasRef]);

  useEffect(() => () => feed.leave(id), [id]);
}
