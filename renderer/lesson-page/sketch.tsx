import { useRef } from 'react';
import type { PointerEvent } from 'react';
import { say } from '../../core/model/say.ts';
import { SKETCH_HEIGHT, type Stroke } from '../../core/model/lesson-page.ts';
import { Button } from '../controls/button.tsx';
import styles from './lesson-page.module.css';

const FIELD = `0 0 1 ${String(SKETCH_HEIGHT)}`;

/** A sketch to look at. */
export function Sketch({ title, strokes }: { readonly title: string; readonly strokes: readonly Stroke[] }) {
  return (
    <svg className={styles.sketch} viewBox={FIELD} role="img" aria-label={say`Sketch of the drill ${title}`}>
      <Strokes strokes={strokes} />
    </svg>
  );
}

/** A field to draw in by mouse, pen or finger: each press begins a stroke. */
export function SketchPad(props: {
  readonly strokes: readonly Stroke[];
  readonly onChange: (strokes: readonly Stroke[]) => void;
}) {
  const { strokes, onChange } = props;
  /** What the press that is held has drawn so far; a pointer moves faster than the page renders. */
  const drawn = useRef<readonly Stroke[] | null>(null);
  const put = (event: PointerEvent<SVGSVGElement>): void => {
    if (drawn.current === null) return;
    const last = drawn.current.at(-1) ?? [];
    drawn.current = [...drawn.current.slice(0, -1), [...last, placeOf(event)]];
    onChange(drawn.current);
  };
  return (
    <div>
      <p>{say`Sketch, optional: draw with the pointer`}</p>
      <svg
        className={styles.pad}
        viewBox={FIELD}
        role="img"
        aria-label={say`Field to sketch in`}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          drawn.current = [...strokes, []];
          put(event);
        }}
        onPointerMove={put}
        onPointerUp={() => {
          drawn.current = null;
        }}
        onPointerCancel={() => {
          drawn.current = null;
          onChange(strokes.slice(0, -1));
        }}
      >
        <Strokes strokes={strokes} />
      </svg>
      <Button
        small
        disabled={strokes.length === 0}
        onPress={() => onChange(strokes.slice(0, -1))}
      >{say`Take back a stroke`}</Button>
    </div>
  );
}

function Strokes({ strokes }: { readonly strokes: readonly Stroke[] }) {
  return strokes.map((stroke, index) => {
    const [first] = stroke;
    if (first === undefined) return null;
    // A dot is a line of no length with round ends.
    const places = stroke.length === 1 ? [first, first] : stroke;
    return <path key={index} d={`M${places.map(({ x, y }) => `${String(x)} ${String(y)}`).join('L')}`} />;
  });
}

function placeOf({ clientX, clientY, currentTarget }: PointerEvent<SVGSVGElement>): { x: number; y: number } {
  const { left, top, width } = currentTarget.getBoundingClientRect();
  const within = (value: number, most: number): number => Math.min(most, Math.max(0, value));
  return { x: within((clientX - left) / width, 1), y: within((clientY - top) / width, SKETCH_HEIGHT) };
}
