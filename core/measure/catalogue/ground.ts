import { say } from '../../model/say.ts';
import type { GroundPoint } from '../../geometry/ground-marks.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import { ANYTHING, BOTH_VIEWS, VALUE } from './entry.ts';
import type { PlacedEntry, Places } from './entry.ts';
import { GUIDE_MM, flared, guide, length, line, slipped } from './sketch.ts';

const GROUND = {
  headBox: false,
  edges: false,
  ground: true,
  plane: 'player',
  // The ground is level by itself; the vertical of the picture has no part in it.
  upright: false,
  reference: null,
  isSize: false,
  plausible: ANYTHING,
  views: BOTH_VIEWS,
  aspects: VALUE,
} as const;

function between(from: GroundPoint | null, to: GroundPoint | null): GroundPoint | null {
  return from === null || to === null ? null : { x: to.x - from.x, y: to.y - from.y };
}

/**
 * Places on the ground: x toward the target, y toward the ball. From heel to toe, with x turned outward: `outward` is +1 where
 * that is toward the target. Its direction from +y toward +x is that from square to the target line.
 */
function foot({ groundHere }: Places, heel: BodyPointId, toe: BodyPointId, outward: 1 | -1): GroundPoint | null {
  const way = between(groundHere(heel), groundHere(toe));
  return way === null ? null : { x: outward * way.x, y: way.y };
}

function slip({ groundHere, groundAddress }: Places, point: BodyPointId): GroundPoint | null {
  return between(groundAddress(point), groundHere(point));
}

function angleBy(way: NonNullable<PlacedEntry['way']>) {
  return {
    quantity: 'angle',
    range: null,
    way,
    compute: (places: Places) => {
      const found = way(places);
      return found === null || (found.x === 0 && found.y === 0) ? null : Math.atan2(found.x, found.y);
    },
  } as const;
}

function lengthBy(way: NonNullable<PlacedEntry['way']>) {
  return {
    quantity: 'length',
    range: [0, Infinity],
    way,
    compute: (places: Places) => {
      const found = way(places);
      return found === null ? null : Math.hypot(found.x, found.y);
    },
  } as const;
}

/** Readings of where the feet stand, true on the ground whichever way the camera looks. They need ground marks. */
export const GROUND_ENTRIES = {
  'lead-flare': {
    ...GROUND,
    label: say`Lead foot flare`,
    formula: say`How far the line from heel to toe of the lead foot is turned from square to the target line, on the ground.`,
    sign: { plus: say`turned out`, minus: say`turned in` },
    checkpoints: ['address', 'finish'],
    points: { here: ['lead-heel', 'lead-toe'], address: [] },
    ...angleBy((places) => foot(places, 'lead-heel', 'lead-toe', 1)),
    sketch: (places) => flared(places, 'lead-heel', 'lead-toe'),
  },
  'trail-flare': {
    ...GROUND,
    label: say`Trail foot flare`,
    formula: say`How far the line from heel to toe of the trail foot is turned from square to the target line, on the ground.`,
    sign: { plus: say`turned out`, minus: say`turned in` },
    checkpoints: ['address'],
    points: { here: ['trail-heel', 'trail-toe'], address: [] },
    ...angleBy((places) => foot(places, 'trail-heel', 'trail-toe', -1)),
    sketch: (places) => flared(places, 'trail-heel', 'trail-toe'),
  },
  'heel-slip': {
    ...GROUND,
    label: say`Lead heel slip`,
    formula: say`How far the heel of the lead foot has moved on the ground since address.`,
    sign: null,
    checkpoints: ['finish'],
    points: { here: ['lead-heel'], address: ['lead-heel'] },
    ...lengthBy((places) => slip(places, 'lead-heel')),
    sketch: ({ here, address }) => slipped(address('lead-heel'), here('lead-heel')),
  },
  'toe-slip': {
    ...GROUND,
    label: say`Lead toe slip`,
    formula: say`How far the toe of the lead foot has moved on the ground since address.`,
    sign: null,
    checkpoints: ['finish'],
    points: { here: ['lead-toe'], address: ['lead-toe'] },
    ...lengthBy((places) => slip(places, 'lead-toe')),
    sketch: ({ here, address }) => slipped(address('lead-toe'), here('lead-toe')),
  },
  'ground-stance': {
    ...GROUND,
    label: say`Stance on the ground`,
    formula: say`The distance from heel to heel on the ground.`,
    sign: null,
    checkpoints: ['address'],
    points: { here: ['lead-heel', 'trail-heel'], address: [] },
    ...lengthBy(({ groundHere }) => between(groundHere('trail-heel'), groundHere('lead-heel'))),
    isSize: true,
    sketch: ({ here }) => [length(here('trail-heel'), here('lead-heel'))],
  },
  'toe-line': {
    ...GROUND,
    label: say`Toe line`,
    formula: say`How far the line from trail toe to lead toe is turned from the target line, on the ground.`,
    sign: { plus: say`closed`, minus: say`open` },
    checkpoints: ['address'],
    points: { here: ['lead-toe', 'trail-toe'], address: [] },
    ...angleBy(({ groundHere }) => {
      const way = between(groundHere('trail-toe'), groundHere('lead-toe'));
      // Turned so that the target line is where a direction is told from.
      return way === null ? null : { x: way.y, y: way.x };
    }),
    sketch: ({ here, onGround }) => {
      const [trail, lead] = [here('trail-toe'), here('lead-toe')];
      return [line(trail, lead), ...guide(trail, onGround(trail, { target: GUIDE_MM, ball: 0 }))];
    },
  },
} as const satisfies Record<string, PlacedEntry>;
