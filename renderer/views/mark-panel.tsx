import { memo } from 'react';
import { BODY_POINT_INFO } from '../../core/model/body-points.ts';
import { app } from '../state/app.ts';
import { askForPoint, benchClip, keptMarks, pointAskedFor, select } from '../state/bench-actions.ts';
import { useStore } from '../state/store.ts';
import { pointsOfView } from '../tools/points-tool.ts';
import { targetExists } from '../tools/target.ts';
import styles from './bench-page.module.css';
import { SelectedMark } from './selected-mark.tsx';

/** What is in hand: the selected mark, or the body point that comes next. */
export const MarkPanel = memo(function MarkPanel() {
  const marks = useStore(app, keptMarksOnce);
  const selected = useStore(app, (state) => state.bench?.selected ?? null);
  const isPlacing = useStore(app, (state) => state.bench?.tool.tool === 'points');
  const clip = useStore(app, benchClip);
  if (marks === null || clip === null) return null;
  return (
    <>
      {isPlacing ? <PointRun /> : null}
      {selected !== null && targetExists(marks, selected) ? (
        <SelectedMark clip={clip} marks={marks} selected={selected} />
      ) : null}
    </>
  );
});

/** Every body point of the view: which are placed, which comes next, and a way to choose another. */
function PointRun() {
  const marks = useStore(app, keptMarksOnce);
  const clip = useStore(app, benchClip);
  const asked = useStore(app, pointAskedFor);
  if (marks === null || clip === null) return null;
  return (
    <section className={styles.card} aria-label="Body points">
      {asked === null ? (
        <h2>All body points are placed</h2>
      ) : (
        <div aria-live="polite">
          <h2>Next: {BODY_POINT_INFO[asked].label.toLowerCase()}</h2>
          <p>{BODY_POINT_INFO[asked].where}</p>
        </div>
      )}
      <div className={styles.points}>
        {pointsOfView(clip.view).map((point) => {
          const placed = marks.points[point] !== undefined;
          const { label } = BODY_POINT_INFO[point];
          return (
            <button
              key={point}
              type="button"
              className={styles.point}
              data-placed={placed}
              data-asked={point === asked}
              aria-label={`${label}, ${placed ? 'placed' : 'not placed'}`}
              onClick={() => (placed ? select({ kind: 'point', point }) : askForPoint(point))}
            >
              {label}
            </button>
          );
        })}
      </div>
    </section>
  );
}

/** `keptMarks` with the same value for the same state, as a store's part must be. */
let last: { state: ReturnType<typeof app.get>; marks: ReturnType<typeof keptMarks> } | null = null;
function keptMarksOnce(state: ReturnType<typeof app.get>): ReturnType<typeof keptMarks> {
  if (last?.state !== state) last = { state, marks: keptMarks(state) };
  return last.marks;
}
