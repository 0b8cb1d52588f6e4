import { useEffect, useRef } from 'react';
import { AppError } from '../../core/model/errors.ts';
import type { Orientation } from '../../core/time/display-matrix.ts';
import styles from './span-choice.module.css';
import { feed } from '../swing/feed.ts';
import type { FirstSight } from './first-sight.ts';

/** Under this name the program opens the file that is being looked at, before it is a clip of the book. */
const INSPECTED = 'look';
/** CSS pixels. */
const HEIGHT = 84;
/** A picture that was stopped for another reason than that it is not wanted any more is asked for again. */
const AGAIN_MS = 200;

/** Pictures of the file that is looked at come one after the other: two far apart would each stop the other's decoder. */
let turn: Promise<unknown> = Promise.resolve();

function inTurn(signal: AbortSignal, frame: number): Promise<ImageBitmap> {
  const made = turn.then(() => feed.picture(INSPECTED, frame, 'proxy', signal));
  turn = made.catch(() => undefined);
  return made;
}

/**
 * A small picture of a frame of the chosen file. The canvas says which frame it shows: `data-shown`. One that cannot be
 * made leaves the place empty; the dialog says what is wrong with the file.
 */
export function PreviewPicture(props: {
  readonly frame: number;
  readonly label: string;
  readonly width: number;
  readonly height: number;
  /** CSS pixels. */
  readonly high?: number;
  /** A picture of this frame that may come sooner than by way of the frame server; it is then not made again. */
  readonly sooner?: Promise<FirstSight | null>;
}) {
  const { frame, label, width, height, high = HEIGHT, sooner = null } = props;
  const canvasRef = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const control = new AbortController();
    let again: ReturnType<typeof setTimeout> | null = null;
    const load = (): void => {
      inTurn(control.signal, frame).then(
        (picture) => {
          const canvas = canvasRef.current;
          if (canvas !== null && !control.signal.aborted) draw(canvas, picture, UPRIGHT, frame);
          picture.close();
        },
        (error: unknown) => {
          if (!control.signal.aborted && error instanceof AppError && error.code === 'cancelled')
            again = setTimeout(load, AGAIN_MS);
        },
      );
    };
    const loadSooner = async (): Promise<void> => {
      const first = await sooner;
      const canvas = canvasRef.current;
      if (control.signal.aborted) return;
      if (first !== null && canvas !== null) draw(canvas, first.picture, first, frame);
      else load();
    };
    void loadSooner();
    return () => {
      control.abort();
      if (again !== null) clearTimeout(again);
    };
  }, [frame, sooner]);

  // What stands ready for the file is let go; another picture of it has it made anew.
  useEffect(() => () => feed.leave(INSPECTED), []);

  const wide = Math.round((high * width) / height);
  return (
    <canvas
      ref={canvasRef}
      className={styles.picture}
      role="img"
      aria-label={label}
      width={wide * 2}
      height={high * 2}
      style={{ width: wide, height: high }}
    />
  );
}

/**
 * The first picture of a file of which nothing else is known yet, as soon as it is made. Its place is kept free until then;
 * where there is none, it stays empty.
 */
export function FirstSightPicture(props: { readonly label: string; readonly made: Promise<FirstSight | null> }) {
  const { label, made } = props;
  const canvasRef = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    let isGone = false;
    const show = async (): Promise<void> => {
      const first = await made;
      const canvas = canvasRef.current;
      if (first !== null && canvas !== null && !isGone) {
        const { picture, turn } = first;
        const [width, height] = turn % 180 === 0 ? [picture.width, picture.height] : [picture.height, picture.width];
        const wide = Math.round((HEIGHT * width) / height);
        canvas.width = wide * 2;
        canvas.style.width = `${String(wide)}px`;
        draw(canvas, picture, first, 0);
      }
    };
    void show();
    return () => {
      isGone = true;
    };
  }, [made]);
  return (
    <canvas
      ref={canvasRef}
      className={styles.picture}
      role="img"
      aria-label={label}
      width={0}
      height={HEIGHT * 2}
      style={{ width: 0, height: HEIGHT }}
    />
  );
}

const UPRIGHT = { turn: 0, mirrored: false } as const;

/** Fills the canvas with the picture, mirrored and turned clockwise. */
function draw(canvas: HTMLCanvasElement, picture: ImageBitmap, { turn, mirrored }: Orientation, frame: number): void {
  const context = canvas.getContext('2d');
  if (context === null) return;
  const { width, height } = canvas;
  context.setTransform(1, 0, 0, 1, width / 2, height / 2);
  context.rotate((turn * Math.PI) / 180);
  if (mirrored) context.scale(-1, 1);
  const [wide, high] = turn % 180 === 0 ? [width, height] : [height, width];
  context.drawImage(picture, -wide / 2, -high / 2, wide, high);
  canvas.dataset['shown'] = String(frame);
}
