import { say } from '../../../core/model/say.ts';
import { BODY_POINT_INFO } from '../../../core/model/body-points.ts';
import { guessWords } from '../../../core/measure/proposed/learnt-words.ts';
import { TERMS } from '../../../core/measure/words/glossary.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { BoxShape, FrameMarks } from '../../../core/model/mark.ts';
import { kindOf } from '../../../core/shapes/shapes.ts';
import { keepMarks } from '../../swing/state/edit-actions.ts';
import {
  lookOf,
  withBall,
  withCarried,
  withHead,
  withHeadBox,
  withHidden,
  withLook,
} from '../../tools/change-marks.ts';
import type { Target } from '../../tools/target.ts';
import styles from '../bench-page.module.css';
import lay from '../../controls/lay.module.css';
import { CopyShapeTo } from './copy-shapes.tsx';
import { shapeNumbers } from './shape-numbers.ts';
import { hasLook, isNumbered, rememberLook } from '../state/drawing-look.ts';
import { ShapeLookChoice } from './shape-look.tsx';
import { TextWords } from './text-words.tsx';
import { LineRole } from './line-role.tsx';
import { MarkEnd } from './mark-end.tsx';
import { Check } from '../../controls/fields.tsx';

interface SelectedMarkProps {
  readonly clip: BookClip;
  readonly marks: FrameMarks;
  readonly selected: Target;
}

/** The selected mark: its number, what it stands for, and a way to take it off. */
export function SelectedMark({ clip, marks, selected }: SelectedMarkProps) {
  const shape = selected.kind === 'shape' ? marks.shapes.find((each) => each.id === selected.id) : undefined;
  const point = selected.kind === 'point' ? selected.point : null;
  const placed = point === null ? undefined : marks.points[point];
  const title = point === null ? kindOf(shape ?? { kind: 'line' }).label : BODY_POINT_INFO[point].label;
  return (
    <section className={`${styles.card ?? ''} ${styles.inSight ?? ''}`} aria-label={say`Selected mark`}>
      <h2>{title}</h2>
      {shape === undefined ? null : <strong>{shapeNumbers(shape, clip)}</strong>}
      {point === null ? null : (
        <Check
          checked={placed?.hidden ?? false}
          onChange={(hidden) => keepMarks(clip.id, withHidden(marks, point, hidden))}
        >
          <span title={TERMS.hidden.means}>{say`Hidden: its place is a guess`}</span>
        </Check>
      )}
      {placed?.guess === undefined ? null : (
        <p className={lay.soft}>
          {say`Stands as proposed.`} {guessWords(placed.guess, placed.proposed?.learnt)}
        </p>
      )}
      {shape?.kind === 'text' ? <TextWords key={shape.id} clip={clip} marks={marks} shape={shape} /> : null}
      {shape === undefined || !hasLook(shape.kind) ? null : (
        <ShapeLookChoice
          look={lookOf(shape)}
          hasNumber={isNumbered(shape.kind)}
          onChange={(look) => {
            rememberLook(look);
            keepMarks(clip.id, withLook(marks, shape.id, look));
          }}
        />
      )}
      {shape?.kind === 'line' ? <LineRole key={shape.id} clip={clip} marks={marks} line={shape} /> : null}
      {shape?.kind === 'circle' ? (
        <Check
          checked={shape.role === 'ball'}
          onChange={(on) => keepMarks(clip.id, withBall(marks, shape.id, on))}
        >{say`This is the golf ball (sets the scale)`}</Check>
      ) : null}
      {shape?.kind === 'edge' ? (
        <p className={lay.soft}>{say`Something straight. What it says about the lens stands under Camera.`}</p>
      ) : null}
      {shape?.kind === 'box' ? <HeadBox clip={clip} marks={marks} box={shape} /> : null}
      {shape === undefined || shape.kind === 'path' ? null : (
        <>
          <Check
            checked={shape.carried === true}
            onChange={(on) => keepMarks(clip.id, withCarried(marks, shape.id, on))}
          >{say`Show on all frames`}</Check>
          {shape.kind === 'edge' ? null : <CopyShapeTo clip={clip} shape={shape} frame={marks.frame} />}
        </>
      )}
      <MarkEnd clip={clip} home={marks} mark={selected} />
    </section>
  );
}

function HeadBox(props: { readonly clip: BookClip; readonly marks: FrameMarks; readonly box: BoxShape }) {
  const { clip, marks, box } = props;
  return (
    <>
      <Check
        checked={box.role === 'head-box'}
        onChange={(on) => keepMarks(clip.id, withHeadBox(marks, box.id, on))}
      >{say`This is the head box`}</Check>
      <Check
        checked={box.role === 'head'}
        onChange={(on) => keepMarks(clip.id, withHead(marks, box.id, on))}
      >{say`This is the head: close round head and cap`}</Check>
    </>
  );
}
