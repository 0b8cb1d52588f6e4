import { say } from '../../../core/model/say.ts';
import type { BodyPointId } from '../../../core/model/body-points.ts';
import { BODY_POINT_INFO } from '../../../core/model/body-points.ts';
import type { Handedness, View } from '../../../core/model/words.ts';
import { FIGURE, placeOnFigure } from './body-places.ts';
import styles from './guided-run.module.css';

const HEAD_RADIUS = 10;
const BALL_RADIUS = 2.4;
const SPOT_RADIUS = 3.4;
const RING_RADIUS = 7.5;

/** What the figure's limbs go through; the club hangs in the hands. */
const LIMBS = {
  lead: [
    ['lead-hip', 'lead-knee', 'lead-ankle', 'lead-heel', 'lead-toe'],
    ['lead-shoulder', 'lead-elbow', 'grip-end'],
  ],
  trail: [
    ['trail-hip', 'trail-knee', 'trail-ankle', 'trail-heel', 'trail-toe'],
    ['trail-shoulder', 'trail-elbow', 'grip-end'],
  ],
} as const satisfies Record<string, readonly (readonly BodyPointId[])[]>;
/** Round the trunk: shoulders and seat. */
const TRUNK: Readonly<Record<View, readonly BodyPointId[]>> = {
  'face-on': ['neck-base', 'lead-shoulder', 'lead-hip', 'trail-hip', 'trail-shoulder'],
  'down-the-line': ['neck-base', 'lead-shoulder', 'lead-hip', 'trail-hip', 'tailbone'],
};
const LIMB_WIDTH = 5;
const THIN = 2;

/** A plain figure of the player in this view, with one body point marked on it. */
export function BodyFigure(props: {
  readonly view: View;
  readonly handedness: Handedness;
  readonly point: BodyPointId;
}) {
  const { view, handedness, point } = props;
  const at = (id: BodyPointId) => placeOnFigure(view, id, handedness);
  const through = (ids: readonly BodyPointId[]) => ids.map((id) => `${String(at(id).x)},${String(at(id).y)}`).join(' ');
  const limbs = (side: keyof typeof LIMBS) => {
    // Down the line the camera stands on the trail side.
    const isFar = view === 'down-the-line' && side === 'lead';
    return LIMBS[side].map((ids) => (
      <polyline key={ids[0]} className={styles.limb} data-far={isFar} points={through(ids)} strokeWidth={LIMB_WIDTH} />
    ));
  };
  const [head, ball, asked] = [at('head-centre'), at('ball'), at(point)];
  return (
    <svg
      className={styles.figure}
      viewBox={`0 0 ${String(FIGURE.width)} ${String(FIGURE.height)}`}
      role="img"
      aria-label={say`${BODY_POINT_INFO[point].label} on a figure of the player`}
    >
      {limbs('lead')}
      <polyline className={styles.limb} points={through(['neck-base', 'head-centre'])} strokeWidth={LIMB_WIDTH} />
      <polygon className={styles.trunk} points={through(TRUNK[view])} />
      {limbs('trail')}
      <polyline className={styles.limb} points={through(['grip-end', 'clubhead'])} strokeWidth={THIN} />
      <circle cx={head.x} cy={head.y} r={HEAD_RADIUS} className={styles.head} />
      <circle cx={ball.x} cy={ball.y} r={BALL_RADIUS} className={styles.head} />
      <g className={styles.spot}>
        <circle cx={asked.x} cy={asked.y} r={SPOT_RADIUS} />
        <circle cx={asked.x} cy={asked.y} r={RING_RADIUS} className={styles.ring} />
      </g>
    </svg>
  );
}
