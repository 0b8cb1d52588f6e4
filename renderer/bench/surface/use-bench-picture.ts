import { useEffect } from 'react';
import type { RefObject } from 'react';
import type { BookClip } from '../../../core/model/book.ts';
import { AppError } from '../../../core/model/errors.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { setBenchPicture } from '../../canvas/bench-content.ts';
import { benchView } from '../../canvas/bench-view.ts';
import { createFramePictures } from '../../canvas/frame-pictures.ts';
import type { FramePictures } from '../../canvas/frame-pictures.ts';
import { paintPicture } from '../../canvas/paint-picture.ts';
import { setShownPicture } from '../../canvas/shown-picture.ts';
import type { ShownPicture } from '../../canvas/shown-picture.ts';
import { app, setBench } from '../../shell/state/app-state.ts';
import type { BenchPicture, Message } from '../../shell/state/app-state.ts';
import { attempt, tellTrouble } from '../../shell/state/messages.ts';
import { run } from '../playback/state/playback.ts';
import { findFileAgain } from '../../swing/state/swing-actions.ts';
import { TRY_AGAIN, feed, isStopped } from '../../swing/feed.ts';

const PICTURES: Readonly<Record<ShownPicture['quality'], BenchPicture>> = {
  proxy: 'quick',
  sharp: 'exact',
  none: 'none',
};

/**
 * Keeps the right picture on the lower canvas: the proxy picture while moving, the sharp one when resting, swapped in
 * place. Follows the store itself and not a render: a picture that is there is painted before React draws the rest.
 *
 * The canvas says what it shows: `data-shown` (frame), `data-quality` (proxy, sharp or none), `data-arrived` (frame whose
 * data came last) and where the picture lies, `data-zoom`, `data-left`, `data-top` in CSS pixels.
 */
export function useBenchPicture(
  clip: BookClip,
  frames: ClipIndex['frames'],
  canvasRef: RefObject<HTMLCanvasElement | null>,
): void {
  const { id, width, height } = clip;
  useEffect(() => {
    let picture: ImageBitmap | null = null;

    const repaint = () => {
      const canvas = canvasRef.current;
      if (canvas === null) return;
      const { view } = benchView.get();
      paintPicture(canvas, picture, width, height, view);
      canvas.dataset['zoom'] = String(view.zoom);
      canvas.dataset['left'] = String(view.panLeft);
      canvas.dataset['top'] = String(view.panTop);
    };
    const show = (next: ImageBitmap | null, index: number, quality: ShownPicture['quality']) => {
      picture = next;
      setBenchPicture(next);
      repaint();
      setShownPicture({ clip: id, index, quality });
      const canvas = canvasRef.current;
      if (canvas !== null) {
        canvas.dataset['quality'] = quality;
        canvas.dataset['shown'] = String(index);
      }
      if (isOn(id, index)) setBench({ picture: PICTURES[quality] });
    };

    const stopHearing = feed.onArrival((clip, frame) => {
      const canvas = canvasRef.current;
      if (clip === id && canvas !== null) canvas.dataset['arrived'] = String(frame);
    });

    const pictures = createFramePictures<ImageBitmap>({
      frameCount: frames.length,
      load: (index, quality, signal) => feed.picture(id, index, quality, signal),
      show,
      failed(error, index) {
        // Another frame's picture under this frame's number would be a lie.
        show(null, index, 'none');
        tellTrouble(error, nextStepFor(error, id, pictures));
      },
    });
    const follow = () => {
      const { bench } = app.get();
      const { running, every } = run.get();
      if (bench?.clipId !== id) return;
      pictures.hold(bench.draft !== null);
      pictures.want(bench.index, running ? every : 0);
    };
    follow();
    const stopFollowing = app.subscribe(follow);
    const stopFollowingPlayback = run.subscribe(follow);
    const stopPainting = benchView.subscribe(repaint);
    const stopWaiting = feed.onStartAgain(() => pictures.wantAgain());
    return () => {
      stopFollowing();
      stopFollowingPlayback();
      stopHearing();
      stopPainting();
      stopWaiting();
      pictures.close();
      setShownPicture(null);
      setBenchPicture(null);
      feed.leave(id);
    };
    // Pictures are kept under the number of their frame, which a settled table may have changed.
  }, [id, width, height, frames, canvasRef]);
}

function isOn(clipId: string, index: number): boolean {
  const { bench } = app.get();
  return bench?.clipId === clipId && bench.index === index;
}

/** A clip that is not where it was can be shown again, and pictures that stopped coming can be asked for anew. */
function nextStepFor(error: unknown, clipId: string, pictures: FramePictures): Message['nextStep'] {
  if (isStopped(error)) return TRY_AGAIN;
  const lost = error instanceof AppError && (error.code === 'clip-moved' || error.code === 'clip-changed');
  const find = async (): Promise<void> => {
    if (await attempt(() => findFileAgain(clipId))) pictures.wantAgain();
  };
  return lost ? { label: 'Find the file again', run: () => void find() } : null;
}
