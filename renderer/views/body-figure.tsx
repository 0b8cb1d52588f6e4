import type { BodyPointId } from '../../core/model/body-points.ts';
import { BODY_POINT_INFO } from '../../core/model/body-points.ts';
import type { Handedness, View } from '../../core/model/words.ts';
import { STICKS } from '../../core/painting/sticks.ts';
import { FIGURE, placeOnFigure } from './body-places.ts';
import styles from './guided-run.module.css';

/** The spine and the neck are no limbs, but hold them together here. */
const THIN = new Set<string>(['shaft', 'lead-foot', 'trail-foot']);
const HEAD_RADIUS = 10;

/** A plain figure of the player in this view, with one body point marked on it. */
export function BodyFigure(props: {
  readonly view: View;
  readonly handedness: Handedness;
  readonly point: BodyPointId;
}) {
  const { view, handedness, point } = props;
  const at = (id: BodyPointId) => placeOnFigure(view, id, handedness);
  const head = at('head-centre');
  const ball = at('ball');
  const asked = at(point);
  return (
    <svg
      className={styles.figure}
      viewBox={`0 0 ${String(FIGURE.width)} ${String(FIGURE.height)}`}
      role="img"
      aria-label={`${BODY_POINT_INFO[point].label} on a figure of the player`}
    >
      {STICKS.map(({ id, from, to }) => {
        const [a, b] = [at(from), at(to)];
        return <line key={id} x1={a.x} y1={a.y} x2={b.x} y2={b.y} strokeWidth={THIN.has(id) ? 2 : 5} />;
      })}
      <circle cx={head.x} cy={head.y} r={HEAD_RADIUS} className={styles.head} />
      <circle cx={ball.x} cy={ball.y} r={2.4} className={styles.head} />
      <g className={styles.spot}>
        <circle cx={asked.x} cy={asked.y} r={7} />
        <path d={`M${String(asked.x - 12)} ${String(asked.y)}h24M${String(asked.x)} ${String(asked.y - 12)}v24`} />
      </g>
    </svg>
  );
}
