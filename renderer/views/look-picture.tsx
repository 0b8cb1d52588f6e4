import { useEffect, useRef } from 'react';
import { AppError } from '../../core/model/errors.ts';
import styles from './span-choice.module.css';
import { feed } from './feed.ts';

/** Under this name the program opens the file that is being looked at, before it is a clip of the book. */
const LOOKED_AT = 'look';
/** CSS pixels. */
const HEIGHT = 84;
/** A picture that was stopped for another reason than that it is not wanted any more is asked for again. */
const AGAIN_MS = 200;

/** Pictures of the file that is looked at come one after the other: two far apart would each stop the other's decoder. */
let turn: Promise<unknown> = Promise.resolve();

function inTurn(signal: AbortSignal, frame: number): Promise<ImageBitmap> {
  const made = turn.then(() => feed.picture(LOOKED_AT, frame, 'scrub', signal));
  turn = made.catch(() => undefined);
  return made;
}

/**
 * A small picture of a frame of the chosen file. The canvas says which frame it shows: `data-shown`. One that cannot be
 * made leaves the place empty; the dialog says what is wrong with the file.
 */
export function LookPicture(props: {
  readonly frame: number;
  readonly label: string;
  readonly width: number;
  readonly height: number;
}) {
  const { frame, label, width, height } = props;
  const canvasRef = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const control = new AbortController();
    let again: ReturnType<typeof setTimeout> | null = null;
    const load = (): void => {
      inTurn(control.signal, frame).then(
        (picture) => {
          const canvas = canvasRef.current;
          if (canvas !== null && !control.signal.aborted) {
            canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
            canvas.dataset['shown'] = String(frame);
          }
          picture.close();
        },
        (error: unknown) => {
          if (!control.signal.aborted && error instanceof AppError && error.code === 'cancelled')
            again = setTimeout(load, AGAIN_MS);
        },
      );
    };
    load();
    return () => {
      control.abort();
      if (again !== null) clearTimeout(again);
    };
  }, [frame]);

  // What stands ready for the file is let go; another picture of it has it made anew.
  useEffect(() => () => feed.leave(LOOKED_AT), []);

  const wide = Math.round((HEIGHT * width) / height);
  return (
    <canvas
      ref={canvasRef}
      className={styles.picture}
      role="img"
      aria-label={label}
      width={wide * 2}
      height={HEIGHT * 2}
      style={{ width: wide, height: HEIGHT }}
    />
  );
}
