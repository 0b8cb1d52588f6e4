import type { GroundPoint } from '../geometry/ground-marks.ts';
import type { BodyPointId } from '../model/body-points.ts';
import { BOTH_VIEWS, VALUE } from './catalogue-entry.ts';
import type { PlacedEntry, Places } from './catalogue-entry.ts';

const GROUND = {
  headBox: false,
  edges: false,
  ground: true,
  plane: 'player',
  // The ground is level by itself; the vertical of the picture has no part in it.
  upright: false,
  reference: null,
  views: BOTH_VIEWS,
  aspects: VALUE,
} as const;

function between(from: GroundPoint | null, to: GroundPoint | null): GroundPoint | null {
  return from === null || to === null ? null : { x: to.x - from.x, y: to.y - from.y };
}

/** Places on the ground: x toward the target, y toward the ball. Direction from heel to toe, from square to the target line; `outward` is +1 where outward means toward the target. */
function flare({ groundHere }: Places, heel: BodyPointId, toe: BodyPointId, outward: 1 | -1): number | null {
  const foot = between(groundHere(heel), groundHere(toe));
  if (foot === null || (foot.x === 0 && foot.y === 0)) return null;
  return Math.atan2(outward * foot.x, foot.y);
}

function slip({ groundHere, groundAddress }: Places, point: BodyPointId): number | null {
  const way = between(groundAddress(point), groundHere(point));
  return way === null ? null : Math.hypot(way.x, way.y);
}

/** Readings of where the feet stand, true on the ground whichever way the camera looks. They need ground marks. */
export const GROUND_ENTRIES = {
  'lead-flare': {
    ...GROUND,
    quantity: 'angle',
    label: 'Lead foot flare',
    formula:
      'How far the line from heel to toe of the lead foot is turned from square to the target line, on the ground.',
    sign: { plus: 'turned out', minus: 'turned in' },
    checkpoints: ['address', 'finish'],
    points: { here: ['lead-heel', 'lead-toe'], address: [] },
    range: null,
    compute: (places) => flare(places, 'lead-heel', 'lead-toe', 1),
  },
  'trail-flare': {
    ...GROUND,
    quantity: 'angle',
    label: 'Trail foot flare',
    formula:
      'How far the line from heel to toe of the trail foot is turned from square to the target line, on the ground.',
    sign: { plus: 'turned out', minus: 'turned in' },
    checkpoints: ['address'],
    points: { here: ['trail-heel', 'trail-toe'], address: [] },
    range: null,
    compute: (places) => flare(places, 'trail-heel', 'trail-toe', -1),
  },
  'heel-slip': {
    ...GROUND,
    quantity: 'length',
    label: 'Lead heel slip',
    formula: 'How far the heel of the lead foot has moved on the ground since address.',
    sign: null,
    checkpoints: ['finish'],
    points: { here: ['lead-heel'], address: ['lead-heel'] },
    range: [0, Infinity],
    compute: (places) => slip(places, 'lead-heel'),
  },
  'toe-slip': {
    ...GROUND,
    quantity: 'length',
    label: 'Lead toe slip',
    formula: 'How far the toe of the lead foot has moved on the ground since address.',
    sign: null,
    checkpoints: ['finish'],
    points: { here: ['lead-toe'], address: ['lead-toe'] },
    range: [0, Infinity],
    compute: (places) => slip(places, 'lead-toe'),
  },
  'ground-stance': {
    ...GROUND,
    quantity: 'length',
    label: 'Stance on the ground',
    formula: 'The distance from heel to heel on the ground.',
    sign: null,
    checkpoints: ['address'],
    points: { here: ['lead-heel', 'trail-heel'], address: [] },
    range: [0, Infinity],
    compute: ({ groundHere }) => {
      const way = between(groundHere('trail-heel'), groundHere('lead-heel'));
      return way === null ? null : Math.hypot(way.x, way.y);
    },
  },
  'toe-line': {
    ...GROUND,
    quantity: 'angle',
    label: 'Toe line',
    formula: 'How far the line from trail toe to lead toe is turned from the target line, on the ground.',
    sign: { plus: 'closed', minus: 'open' },
    checkpoints: ['address'],
    points: { here: ['lead-toe', 'trail-toe'], address: [] },
    range: null,
    compute: ({ groundHere }) => {
      const way = between(groundHere('trail-toe'), groundHere('lead-toe'));
      return way === null || (way.x === 0 && way.y === 0) ? null : Math.atan2(way.y, way.x);
    },
  },
} as const satisfies Record<string, PlacedEntry>;
