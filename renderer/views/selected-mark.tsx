import { useState } from 'react';
import { BODY_POINT_INFO } from '../../core/model/body-points.ts';
import type { BookClip } from '../../core/model/book.ts';
import type { BoxShape, FrameMarks, LineShape, Shape } from '../../core/model/mark.ts';
import { keepMarks } from '../state/edit-actions.ts';
import { select } from '../state/bench-actions.ts';
import { withCarried, withHeadBox, withHidden, withLineRole, withoutTarget } from '../tools/change-marks.ts';
import type { Target } from '../tools/target.ts';
import styles from './bench-page.module.css';
import { CopyShapeTo } from './copy-shapes.tsx';
import { shapeNumbers } from './shape-numbers.ts';
import { Button } from './parts/button.tsx';
import { Check, TextEntry } from './parts/fields.tsx';

interface SelectedMarkProps {
  readonly clip: BookClip;
  readonly marks: FrameMarks;
  readonly selected: Target;
}

const SHAPE_LABELS: Readonly<Record<Shape['kind'], string>> = {
  line: 'Line',
  angle: 'Angle',
  box: 'Box',
  circle: 'Circle',
  free: 'Free line',
  path: 'Path',
};

/** The selected mark: its number, what it stands for, and a way to take it off. */
export function SelectedMark({ clip, marks, selected }: SelectedMarkProps) {
  const shape = selected.kind === 'shape' ? marks.shapes.find((each) => each.id === selected.id) : undefined;
  const remove = () => {
    keepMarks(clip.id, withoutTarget(marks, selected));
    select(null);
  };
  const point = selected.kind === 'point' ? selected.point : null;
  const title = point === null ? SHAPE_LABELS[shape?.kind ?? 'line'] : BODY_POINT_INFO[point].label;
  return (
    <section
      className={point === null ? styles.card : `${styles.card ?? ''} ${styles.inSight ?? ''}`}
      aria-label="Selected mark"
    >
      <h2>{title}</h2>
      {shape === undefined ? null : <strong>{shapeNumbers(shape, clip)}</strong>}
      {point === null ? null : (
        <Check
          checked={marks.points[point]?.hidden ?? false}
          onChange={(hidden) => keepMarks(clip.id, withHidden(marks, point, hidden))}
        >
          Hidden: its place is a guess
        </Check>
      )}
      {shape?.kind === 'line' ? <LineRole key={shape.id} clip={clip} marks={marks} line={shape} /> : null}
      {shape?.kind === 'box' ? <HeadBox clip={clip} marks={marks} box={shape} /> : null}
      {shape === undefined || shape.kind === 'path' ? null : (
        <>
          <Check
            checked={shape.carried === true}
            onChange={(on) => keepMarks(clip.id, withCarried(marks, shape.id, on))}
          >
            Show on all frames
          </Check>
          <CopyShapeTo clip={clip} shape={shape} frame={marks.frame} />
        </>
      )}
      <div className={styles.row}>
        <Button small look="warning" onPress={remove}>
          Delete
        </Button>
        <Button small onPress={() => select(null)}>
          Let go
        </Button>
      </div>
    </section>
  );
}

function HeadBox(props: { readonly clip: BookClip; readonly marks: FrameMarks; readonly box: BoxShape }) {
  const { clip, marks, box } = props;
  return (
    <Check checked={box.role === 'head-box'} onChange={(on) => keepMarks(clip.id, withHeadBox(marks, box.id, on))}>
      This is the head box
    </Check>
  );
}

const MM_PER_CM = 10;

/** A length in cm as typed, in mm, or null when it is none. */
function parsedLength(text: string): number | null {
  const number = Number(text.trim().replace(',', '.'));
  return text.trim() !== '' && Number.isFinite(number) && number > 0 ? number * MM_PER_CM : null;
}

function LineRole(props: { readonly clip: BookClip; readonly marks: FrameMarks; readonly line: LineShape }) {
  const { clip, marks, line } = props;
  const [asking, setAsking] = useState(line.role === 'yardstick');
  const [text, setText] = useState(line.lengthMm === null ? '' : String(line.lengthMm / MM_PER_CM));
  const lengthMm = parsedLength(text);
  const become = (role: LineShape['role'], length: number | null) =>
    keepMarks(clip.id, withLineRole(marks, line.id, role, length));
  return (
    <>
      <div className={styles.row} role="group" aria-label="What the line stands for">
        <Button
          small
          pressed={line.role === null && !asking}
          look={line.role === null && !asking ? 'main' : 'plain'}
          onPress={() => {
            setAsking(false);
            if (line.role !== null) become(null, null);
          }}
        >
          Just a line
        </Button>
        <Button
          small
          pressed={line.role === 'plumb'}
          look={line.role === 'plumb' ? 'main' : 'plain'}
          onPress={() => {
            setAsking(false);
            become('plumb', null);
          }}
        >
          Plumb
        </Button>
        <Button
          small
          pressed={asking}
          look={asking ? 'main' : 'plain'}
          onPress={() => {
            setAsking(true);
            if (lengthMm !== null) become('yardstick', lengthMm);
          }}
        >
          Yardstick
        </Button>
      </div>
      {line.role === 'plumb' ? (
        <p className={styles.soft}>True vertical. Draw it along an edge that is plumb, such as a door frame.</p>
      ) : null}
      {asking ? (
        <form
          className={styles.row}
          onSubmit={(event) => {
            event.preventDefault();
            if (lengthMm !== null) become('yardstick', lengthMm);
          }}
        >
          <TextEntry label="Real length in cm" value={text} onChange={setText} autoFocus />
          <Button small type="submit" disabled={lengthMm === null || lengthMm === line.lengthMm}>
            Set length
          </Button>
        </form>
      ) : null}
    </>
  );
}
