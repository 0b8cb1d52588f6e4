import { useEffect, useRef } from 'react';
import type { RefObject } from 'react';
import { say } from '../../../core/model/say.ts';
import type { Affine } from '../../../core/compare/lay-over.ts';
import type { BookClip } from '../../../core/model/book.ts';
import { AppError } from '../../../core/model/errors.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { learnMeanColour, meanColourOf } from '../../canvas/mean-colour.ts';
import { fillCanvas } from '../../canvas/fill-canvas.ts';
import { createFramePictures } from '../../canvas/frame-pictures.ts';
import type { FramePictures } from '../../canvas/frame-pictures.ts';
import { paintPicture } from '../../canvas/paint-picture.ts';
import type { ShownPicture } from '../../canvas/shown-picture.ts';
import type { Size, ViewTransform } from '../../canvas/view-transform.ts';
import { app } from '../../shell/state/app-state.ts';
import type { Message } from '../../shell/state/app-state.ts';
import { attempt, tellTrouble } from '../../shell/state/messages.ts';
import { run } from '../playback/state/playback.ts';
import { TRY_AGAIN, feed, isStopped } from '../../swing/feed.ts';
import { findFileAgain } from '../../swing/state/swing-actions.ts';

export interface WantedPicture {
  readonly index: number;
  /** Frames from one picture of a run to the next; 0 or left out where nothing runs. */
  readonly every?: number;
  /** The hand needs the machine for itself: nothing is made for later. */
  readonly hold?: boolean;
}

/** Which picture a surface shows, and who is told. The same object as long as nothing of it changes. */
export interface PictureSource {
  /** The frame that goes with the state as it is now; null where there is none. */
  wanted(): WantedPicture | null;
  /** How the picture lies on the canvas, whose size this is in CSS pixels. */
  view(canvas: HTMLCanvasElement): ViewTransform;
  /** How the picture lies on another one, in whose pixels the view is; left out: by itself. */
  laid?(): Affine;
  /** There is another picture on the canvas; `none`: no picture of this frame. */
  shown(index: number, quality: ShownPicture['quality']): void;
  /** Painted (again), for what is painted over it. */
  painted?(canvas: HTMLCanvasElement, view: ViewTransform, index: number | null): void;
  /** The canvas has another size, in CSS pixels, or pixels of another size. */
  resized?(size: Size): void;
  /** The surface goes, or goes over to another clip. */
  gone?(): void;
  /** What the view is read from, where nobody else has the picture painted again when that changes. */
  readonly follows?: { subscribe(listener: () => void): () => void };
  /** Nothing is shown of a frame before its exact picture. */
  readonly exactOnly?: boolean;
}

/** What is on a surface's canvas. */
export interface PictureLayer {
  /** Not the caller's to close; null where nothing is shown. */
  picture(): ImageBitmap | null;
  repaint(): void;
}

const NOTHING: PictureLayer = { picture: () => null, repaint: () => undefined };

/**
 * Keeps the right picture on a canvas: the proxy picture while moving, the sharp one when resting, swapped in place. Follows
 * the stores themselves and not a render: a picture that is there is painted before React draws the rest. The canvas is as
 * large as its place in the window, in whole device pixels.
 *
 * The canvas says what it shows: `data-shown` (frame), `data-quality` (proxy, sharp or none), `data-arrived` (frame whose
 * data came last), of which clip, and where the picture lies: `data-zoom`, `data-left`, `data-top` in CSS pixels, and
 * `data-laid` where it lies on another one.
 */
export function usePicture(
  canvasRef: RefObject<HTMLCanvasElement | null>,
  { id, width, height }: Pick<BookClip, 'id' | 'width' | 'height'>,
  frames: ClipIndex['frames'],
  source: PictureSource,
): RefObject<PictureLayer> {
  // Names and marks change more often than the clip: its pictures stay when they do.
  const latest = useRef(source);
  const follow = useRef<() => void>(() => undefined);
  const layer = useRef(NOTHING);
  const exactOnly = source.exactOnly === true;

  useEffect(() => {
    latest.current = source;
    follow.current();
    layer.current.repaint();
  }, [source]);

  useEffect(() => {
    const canvas = canvasRef.current;
    if (canvas === null) return;
    let picture: ImageBitmap | null = null;
    let shown: number | null = null;
    /** The next refresh of the screen, where something waits for it. */
    let later = 0;

    const repaint = () => {
      const view = latest.current.view(canvas);
      const laid = latest.current.laid?.();
      const over = laid === undefined ? {} : { laid };
      paintPicture(canvas, { picture, width, height, view, stand: meanColourOf(id), ...over });
      canvas.dataset['zoom'] = String(view.zoom);
      canvas.dataset['left'] = String(view.panLeft);
      canvas.dataset['top'] = String(view.panTop);
      if (laid !== undefined) canvas.dataset['laid'] = JSON.stringify(laid);
      latest.current.painted?.(canvas, view, picture === null ? null : shown);
    };
    layer.current = { picture: () => picture, repaint };
    canvas.dataset['clip'] = id;
    const show = (next: ImageBitmap | null, index: number, quality: ShownPicture['quality']) => {
      picture = next;
      shown = index;
      if (next !== null && next.width > 0) learnMeanColour(id, next);
      repaint();
      canvas.dataset['quality'] = quality;
      canvas.dataset['shown'] = String(index);
      latest.current.shown(index, quality);
    };
    const pictures = createFramePictures<ImageBitmap>({
      frameCount: frames.length,
      exactOnly,
      load: (index, quality, signal) => feed.picture(id, index, quality, signal),
      show,
      failed(error, index) {
        // Another frame's picture under this frame's number would be a lie.
        show(null, index, 'none');
        tellTrouble(error, nextStepFor(error, id, pictures));
      },
    });
    follow.current = () => {
      const wanted = latest.current.wanted();
      if (wanted === null) return;
      if (exactOnly && wanted.index !== shown && later === 0) {
        // One that is kept would come before the marks of the frame before it are gone.
        later = requestAnimationFrame(() => {
          later = 0;
          follow.current();
        });
        show(null, wanted.index, 'none');
      }
      if (later !== 0) return;
      pictures.hold(wanted.hold === true);
      pictures.want(wanted.index, wanted.every);
    };
    const stopFilling = fillCanvas(canvas, (size) => {
      latest.current.resized?.(size);
      repaint();
    });
    follow.current();
    const stops = [
      stopFilling,
      latest.current.follows?.subscribe(repaint) ?? (() => undefined),
      app.subscribe(() => follow.current()),
      run.subscribe(() => follow.current()),
      feed.onStartAgain(() => pictures.wantAgain()),
      feed.onArrival((clip, frame) => {
        if (clip === id) canvas.dataset['arrived'] = String(frame);
      }),
    ];
    return () => {
      for (const stop of stops) stop();
      cancelAnimationFrame(later);
      latest.current.gone?.();
      follow.current = () => undefined;
      layer.current = NOTHING;
      pictures.close();
      feed.leave(id);
    };
    // Pictures are kept under the number of their frame, which a settled table may have changed.
  }, [id, width, height, frames, exactOnly, canvasRef]);
  return layer;
}

/** A clip that is not where it was can be shown again, and pictures that stopped coming can be asked for anew. */
function nextStepFor(error: unknown, clipId: string, pictures: FramePictures): Message['nextStep'] {
  if (isStopped(error)) return TRY_AGAIN;
  const lost = error instanceof AppError && (error.code === 'clip-moved' || error.code === 'clip-changed');
  const find = async (): Promise<void> => {
    if (await attempt(() => findFileAgain(clipId))) pictures.wantAgain();
  };
  return lost ? { label: say`Find the file again`, run: () => void find() } : null;
}
