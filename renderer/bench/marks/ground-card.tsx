import { useMemo, useState } from 'react';
import { say } from '../../../core/model/say.ts';
import { said } from '../../controls/said.tsx';
import { cameraOfClip, groundMarksOf } from '../../../core/measure/camera/camera-of-clip.ts';
import { groundPlaceWords, groundRefusalWords } from '../../../core/measure/words/camera-words.ts';
import { formatPlain, typedLength } from '../../../core/measure/words/format.ts';
import { ASSUMED_PLACING } from '../../../core/measure/uncertainty/placing.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { FrameMarks, GroundShape } from '../../../core/model/mark.ts';
import { app } from '../../shell/state/app-state.ts';
import { keepMarks } from '../../swing/state/edit-actions.ts';
import { planOf } from '../state/ground-plan.ts';
import type { TypedPlace } from '../state/ground-plan.ts';
import { useStore } from '../../shell/state/store.ts';
import { withCarried, withChangedShape } from '../../tools/change-marks.ts';
import { laidAnew, sizeOf } from '../../tools/ground-plan.ts';
import styles from '../bench-page.module.css';
import lay from '../../controls/lay.module.css';
import groundStyles from './ground-panel.module.css';
import { LAYOUT_LABELS } from './ground-panel.tsx';
import { MarkEnd } from './mark-end.tsx';
import { PlaceTable, SizeFields } from './ground-sizes.tsx';
import { Button } from '../../controls/button.tsx';
import { Check } from '../../controls/fields.tsx';

interface GroundCardProps {
  readonly clip: BookClip;
  /** Marks of the frame that the ground marks are kept with, which need not be the one on the bench. */
  readonly home: FrameMarks;
  readonly shape: GroundShape;
}

/** The clip's ground marks: how well they fit, or why they tell nothing; their sizes; and a way to take them off. */
export function GroundCard({ clip, home, shape }: GroundCardProps) {
  return (
    <section className={styles.card} aria-label={say`Selected mark`}>
      <h2>{say`Ground marks`}</h2>
      <p className={lay.soft}>{said`${LAYOUT_LABELS[shape.layout]}, drawn on frame ${home.frame.index}.`}</p>
      <Fit clip={clip} shape={shape} />
      <Sizes key={JSON.stringify(shape.places)} clip={clip} home={home} shape={shape} />
      <Check
        checked={shape.carried === true}
        onChange={(on) => keepMarks(clip.id, withCarried(home, shape.id, on))}
      >{say`Show on all frames`}</Check>
      <MarkEnd clip={clip} home={home} mark={{ kind: 'shape', id: shape.id, handle: null }} />
    </section>
  );
}

/** How far each mark lies from where the others want it. */
function Fit({ clip, shape }: Pick<GroundCardProps, 'clip' | 'shape'>) {
  const handedness = useStore(app, (state) => state.swing?.lesson.handedness ?? 'right');
  const found = useMemo(() => groundMarksOf(clip, ASSUMED_PLACING), [clip]);
  const camera = useMemo(() => cameraOfClip(clip, handedness, ASSUMED_PLACING).ground, [clip, handedness]);
  if (found === null || found.shape.id !== shape.id)
    return <p className={groundStyles.trouble}>{say`The clip has other ground marks too; it is read by those.`}</p>;
  if ('reason' in found) return <p className={groundStyles.trouble}>{groundRefusalWords(found, shape.layout)}</p>;
  // Four marks always fit a map; a camera, which has one number less, they need not.
  const residuals = shape.places.length > 4 ? found.fit.residuals : camera?.state === 'told' ? camera.residuals : [];
  return (
    <>
      {camera?.state === 'told' && camera.isMixedUp ? (
        <p
          className={groundStyles.trouble}
        >{say`Mixed up: they lie as for a player of the other hand. Compare each with its name.`}</p>
      ) : null}
      {residuals.length === 0 ? (
        <p className={lay.soft}>{say`Four marks always fit. A fifth would show how well.`}</p>
      ) : (
        <table className={groundStyles.places}>
          <caption className={lay.soft}>{say`How far each lies from where the others want it`}</caption>
          <tbody>
            {residuals.map((pixels, place) => (
              <tr key={groundPlaceWords(shape.layout, place)}>
                <th scope="row">{groundPlaceWords(shape.layout, place)}</th>
                <td className={groundStyles.figure}>{formatPlain(pixels, 'px', 1)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  );
}

/** The sizes on the ground, as typed before; the places in the picture stay. */
function Sizes({ clip, home, shape }: GroundCardProps) {
  const size = sizeOf(shape);
  const [typed, setTyped] = useState({
    along: size === null ? '' : typedLength(size.along),
    across: size === null ? '' : typedLength(size.across),
  });
  const [rows, setRows] = useState<readonly TypedPlace[]>(
    shape.places.map(({ target, ball }) => ({ target: typedLength(target), ball: typedLength(ball) })),
  );
  const { layout } = shape;
  const plan = planOf({ layout, mat: typed, sticks: typed, measured: rows });
  const isWhole = plan?.places.length === shape.places.length;
  return (
    <form
      className={lay.column}
      onSubmit={(event) => {
        event.preventDefault();
        if (plan !== null && isWhole) keepMarks(clip.id, withChangedShape(home, laidAnew(shape, plan)));
      }}
    >
      {layout === 'measured' ? (
        <PlaceTable rows={rows} onChange={setRows} />
      ) : (
        <SizeFields layout={layout} size={typed} onChange={setTyped} />
      )}
      <div className={styles.row}>
        <Button small type="submit" disabled={!isWhole}>{say`Set sizes`}</Button>
      </div>
    </form>
  );
}
