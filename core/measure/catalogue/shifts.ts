import { say } from '../../model/say.ts';
import { midpoint } from '../../geometry/point.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import {
  AFTER_ADDRESS,
  DOWN_THE_LINE,
  FACE_ON,
  TOWARD_BALL,
  TOWARD_TARGET,
  UP_DOWN,
  VALUE,
  plausibly,
} from './entry.ts';
import type { PlacedEntry, Places } from './entry.ts';
import { middlesMoved, moved } from './sketch.ts';
import type { SketchPlaces } from './sketch.ts';

/** How far one point, or the middle of two, has moved since address along one direction. */
function shift(direction: 'along' | 'up', first: BodyPointId, second: BodyPointId = first) {
  const points = first === second ? [first] : [first, second];
  return {
    quantity: 'length',
    headBox: false,
    edges: false,
    upright: true,
    ground: false,
    plane: 'player',
    range: null,
    isSize: false,
    checkpoints: AFTER_ADDRESS,
    aspects: VALUE,
    points: { here: points, address: points },
    compute: ({ here, address }: Places) =>
      midpoint(here(first), here(second))[direction] - midpoint(address(first), address(second))[direction],
    sketch: (places: SketchPlaces) =>
      first === second
        ? moved(places.address(first), places.here(first), places[direction])
        : middlesMoved(places, first, second),
  } as const;
}

/**
 * Readings of what has moved since address. Without a known length they are stated as a part of a length at address, since pixels
 * cannot be compared between days: of the head box's width for the head, of the shoulder width for shoulder and hip centre.
 * For the hips it is the trail leg's length (hip to knee to ankle), which is ours. The middle between the shoulders goes along with a
 * turn, the neck base between them does not: it went 7 cm at top where the neck base went 1. So does the tailbone: 2 cm at impact
 * and 11 at finish beyond the pelvis centre.
 */
export const SHIFT_ENTRIES = {
  'hip-rise': {
    ...shift('up', 'tailbone'),
    label: say`Hip rise`,
    formula: say`How far the tailbone has risen since address.`,
    sign: UP_DOWN,
    views: DOWN_THE_LINE,
    reference: 'leg-length',
    plausible: [plausibly('cm', -50, 50), plausibly('% leg length', -60, 60)],
  },
  'hip-depth': {
    ...shift('along', 'lead-hip', 'trail-hip'),
    label: say`Hip depth`,
    formula: say`How far the pelvis centre, the middle of the hips, has moved toward the ball since address.`,
    sign: TOWARD_BALL,
    views: DOWN_THE_LINE,
    reference: 'leg-length',
    plausible: [plausibly('cm', -60, 60), plausibly('% leg length', -70, 70)],
  },
  'head-shift': {
    ...shift('along', 'head-centre'),
    label: say`Head shift`,
    formula: say`How far the head centre has moved along the target line since address.`,
    sign: TOWARD_TARGET,
    views: FACE_ON,
    reference: 'head-box',
    plausible: [plausibly('cm', -60, 60), plausibly('% head box', -300, 300)],
  },
  'head-rise': {
    ...shift('up', 'head-centre'),
    label: say`Head rise`,
    formula: say`How far the head centre has risen since address.`,
    sign: UP_DOWN,
    views: FACE_ON,
    reference: 'head-box',
    plausible: [plausibly('cm', -50, 60), plausibly('% head box', -250, 300)],
  },
  'upper-centre-shift': {
    ...shift('along', 'neck-base'),
    label: say`Shoulder centre shift`,
    formula: say`How far the neck base, which lies between the shoulders and does not go along with their turn, has moved along the target line since address.`,
    sign: TOWARD_TARGET,
    views: FACE_ON,
    reference: 'shoulder-width',
    plausible: [plausibly('cm', -60, 70), plausibly('% shoulder width', -170, 200)],
  },
  'lower-centre-shift': {
    ...shift('along', 'lead-hip', 'trail-hip'),
    label: say`Hip centre shift`,
    formula: say`How far the middle of the hips has moved along the target line since address.`,
    sign: TOWARD_TARGET,
    views: FACE_ON,
    reference: 'shoulder-width',
    plausible: [plausibly('cm', -50, 60), plausibly('% shoulder width', -140, 170)],
  },
} as const satisfies Record<string, PlacedEntry>;
