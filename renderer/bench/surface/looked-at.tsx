import { useMemo, useRef } from 'react';
import type { Affine } from '../../../core/compare/lay-over.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { Box } from '../../../core/painting/box.ts';
import type { DrawItem } from '../../../core/painting/draw-item.ts';
import { paint } from '../../../core/painting/paint.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { labelSize } from '../../canvas/label-size.ts';
import type { ViewTransform } from '../../canvas/view-transform.ts';
import { useStore } from '../../shell/state/store.ts';
import { filterOf, pictureLight } from '../state/picture-light.ts';
import { usePicture } from './use-picture.ts';
import type { PictureSource } from './use-picture.ts';

export interface LookedAtProps {
  readonly clip: BookClip;
  readonly frames: ClipIndex['frames'];
  readonly label: string;
  /** The same object as long as nothing of it changes. */
  readonly source: Omit<PictureSource, 'painted'>;
  /** What is drawn over a frame; the same function as long as that does not change. */
  readonly marksOf: (index: number) => readonly DrawItem[];
}

/** A picture that nobody marks on: in the chosen light, its marks on a canvas above it, which the light leaves alone. */
export function LookedAt({ clip, frames, label, source, marksOf }: LookedAtProps) {
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const marksRef = useRef<HTMLCanvasElement>(null);
  const filter = useStore(pictureLight, filterOf);
  const { width, height } = clip;
  const painting = useMemo(
    (): PictureSource => ({
      ...source,
      painted(canvas, view, index) {
        const over = marksRef.current;
        if (over === null) return;
        const items = index === null ? [] : marksOf(index);
        paintMarksOver(over, canvas, { view, laid: source.laid?.() ?? ITSELF, items, picture: { width, height } });
      },
    }),
    [source, marksOf, width, height],
  );
  usePicture(canvasRef, clip, frames, painting);
  return (
    <>
      <canvas ref={canvasRef} role="img" aria-label={label} style={{ filter }} />
      <canvas ref={marksRef} aria-hidden="true" />
    </>
  );
}

const ITSELF: Affine = { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };

interface MarksOver {
  readonly view: ViewTransform;
  readonly laid: Affine;
  readonly items: readonly DrawItem[];
  readonly picture: { readonly width: number; readonly height: number };
}

function paintMarksOver(over: HTMLCanvasElement, below: HTMLCanvasElement, { view, laid, items, picture }: MarksOver) {
  const context = over.getContext('2d');
  if (context === null) return;
  const { width, height, clientWidth } = below;
  if (over.width !== width || over.height !== height) [over.width, over.height] = [width, height];
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.clearRect(0, 0, width, height);
  const ratio = width / Math.max(1, clientWidth);
  const zoom = view.zoom * ratio;
  context.setTransform(zoom, 0, 0, zoom, view.panLeft * ratio, view.panTop * ratio);
  context.transform(laid.a, laid.b, laid.c, laid.d, laid.e, laid.f);
  const isUpright = laid.b === 0 && laid.a > 0;
  // A text that leans, or reads from right to left, is none.
  const shown = isUpright ? items : items.filter(({ kind }) => kind !== 'label');
  const scale = zoom * Math.hypot(laid.a, laid.b);
  const whole = { x: 0, y: 0, ...picture };
  const visible = isUpright ? inSight(view, laid, { width: width / ratio, height: height / ratio }, whole) : whole;
  paint(context, shown, { scale, unit: ratio, textSize: labelSize(ratio), visible });
}

/** What of the picture is on the canvas, so that no text lies beside it. */
function inSight(
  view: ViewTransform,
  { a, e, f }: Affine,
  room: { readonly width: number; readonly height: number },
  whole: Box,
): Box {
  const at = (left: number, top: number) => ({
    x: ((left - view.panLeft) / view.zoom - e) / a,
    y: ((top - view.panTop) / view.zoom - f) / a,
  });
  const [from, to] = [at(0, 0), at(room.width, room.height)];
  const [x, y] = [Math.max(0, from.x), Math.max(0, from.y)];
  return {
    x,
    y,
    width: Math.max(0, Math.min(whole.width, to.x) - x),
    height: Math.max(0, Math.min(whole.height, to.y) - y),
  };
}
