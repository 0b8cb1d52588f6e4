import { beyondEdges, boxBeyondEdges } from '../../geometry/box.ts';
import { distanceToLine } from '../../geometry/line.ts';
import { distance, midpoint } from '../../geometry/point.ts';
import type { SwingPoint } from '../../geometry/point.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import {
  AFTER_ADDRESS,
  DOWN_THE_LINE,
  FACE_ON,
  TOWARD_BALL,
  TOWARD_TARGET,
  UP_DOWN,
  VALUE,
} from './entry.ts';
import type { PlacedEntry, Places } from './entry.ts';

const LENGTH = {
  quantity: 'length',
  headBox: false,
  edges: false,
  upright: true,
  ground: false,
  plane: 'player',
  range: null,
} as const;
const RATIO = {
  quantity: 'ratio',
  headBox: false,
  edges: false,
  upright: false,
  ground: false,
  plane: 'player',
  reference: null,
  range: [0, Infinity],
} as const;

/** Displacement since address along one direction, of one point or of the middle of two. */
function since(
  places: Places,
  pick: (point: SwingPoint) => number,
  first: BodyPointId,
  second: BodyPointId = first,
): number {
  const now = midpoint(places.here(first), places.here(second));
  const then = midpoint(places.address(first), places.address(second));
  return pick(now) - pick(then);
}
const along = (point: SwingPoint) => point.along;
const up = (point: SwingPoint) => point.up;

/** Distance of two points as a ratio to the same distance at address; null when it was 0 there. */
function ratioToAddress(places: Places, a: BodyPointId, b: BodyPointId): number | null {
  const then = distance(places.address(a), places.address(b));
  return then === 0 ? null : distance(places.here(a), places.here(b)) / then;
}

/**
 * Signed distance from the endless line of the shaft at address. Seen from behind the player with the ball on +along, that
 * line rises from the ball to the hands; its outer side, + here, is the one away from the player.
 */
function offPlane(label: string, what: string, point: 'grip-end' | 'clubhead') {
  return {
    ...LENGTH,
    label,
    formula: `How far the ${what} is off the line of the shaft at address.`,
    sign: { plus: 'outside the line', minus: 'inside the line' },
    views: DOWN_THE_LINE,
    checkpoints: ['takeaway', 'lead-arm-level', 'top', 'lead-arm-level-down', 'impact'],
    aspects: VALUE,
    points: { here: [point], address: ['grip-end', 'clubhead'] },
    // The camera's roll turns line and point alike.
    upright: false,
    reference: 'club',
    compute: ({ here, address }: Places) => distanceToLine(here(point), address('grip-end'), address('clubhead')),
  } as const satisfies PlacedEntry;
}

const same = <Points extends readonly BodyPointId[]>(...points: Points) => ({ here: points, address: points });

/**
 * Readings of length. Where there is no yardstick they are stated as a part of a length at address: of the head box's
 * width for the head, of the shoulder width for the upper and lower centre (their own list names no relative unit;
 * this one is ours, since pixels cannot be compared between days), of the trail leg's length (hip to knee to ankle)
 * for the hips.
 */
export const LENGTH_ENTRIES = {
  'hip-rise': {
    ...LENGTH,
    label: 'Hip rise',
    formula: 'How far the tailbone has risen since address.',
    sign: UP_DOWN,
    views: DOWN_THE_LINE,
    checkpoints: AFTER_ADDRESS,
    aspects: VALUE,
    points: same('tailbone'),
    reference: 'leg-length',
    compute: (places) => since(places, up, 'tailbone'),
  },
  'hip-depth': {
    ...LENGTH,
    label: 'Hip depth',
    formula: 'How far the tailbone has moved toward the ball since address.',
    sign: TOWARD_BALL,
    views: DOWN_THE_LINE,
    checkpoints: AFTER_ADDRESS,
    aspects: VALUE,
    points: same('tailbone'),
    reference: 'leg-length',
    compute: (places) => since(places, along, 'tailbone'),
  },
  'hands-off-plane': offPlane('Hands off plane', 'grip end', 'grip-end'),
  'head-off-plane': offPlane('Clubhead off plane', 'clubhead', 'clubhead'),
  'head-shift': {
    ...LENGTH,
    label: 'Head shift',
    formula: 'How far the head centre has moved along the target line since address.',
    sign: TOWARD_TARGET,
    views: FACE_ON,
    checkpoints: AFTER_ADDRESS,
    aspects: VALUE,
    points: same('head-centre'),
    reference: 'head-box',
    compute: (places) => since(places, along, 'head-centre'),
  },
  'head-rise': {
    ...LENGTH,
    label: 'Head rise',
    formula: 'How far the head centre has risen since address.',
    sign: UP_DOWN,
    views: FACE_ON,
    checkpoints: AFTER_ADDRESS,
    aspects: VALUE,
    points: same('head-centre'),
    reference: 'head-box',
    compute: (places) => since(places, up, 'head-centre'),
  },
  /** The side of the head that is farthest out, from the box's edge on that side. */
  'head-box': {
    ...LENGTH,
    label: 'Head box',
    formula:
      'How far head and cap come beyond the box drawn at address, on the side where they are farthest out. ' +
      'Inside counts as minus.',
    sign: { plus: 'outside the box', minus: 'inside the box' },
    views: FACE_ON,
    checkpoints: AFTER_ADDRESS,
    aspects: VALUE,
    points: same('head-centre'),
    headBox: true,
    head: true,
    edges: true,
    // The box is upright in the picture, and the head is held against it there.
    upright: false,
    reference: 'head-box',
    compute: ({ head, headBox }) => boxBeyondEdges(head(), headBox()),
  },
  /** Signed distance of the head centre from the box's nearest edge; see `beyondEdges` for corners. */
  'head-centre-box': {
    ...LENGTH,
    label: 'Head centre in the box',
    formula:
      'How far the middle of the head is beyond the nearest edge of the box drawn at address; inside counts as minus. ' +
      'The head reaches farther: see Head box.',
    sign: { plus: 'centre outside the box', minus: 'centre inside the box' },
    views: FACE_ON,
    checkpoints: AFTER_ADDRESS,
    aspects: VALUE,
    points: { here: ['head-centre'], address: [] },
    headBox: true,
    edges: true,
    upright: false,
    reference: 'head-box',
    compute: ({ pictureHere, headBox }) => beyondEdges(pictureHere('head-centre'), headBox()),
  },
  'upper-centre-shift': {
    ...LENGTH,
    label: 'Upper centre shift',
    formula: 'How far the middle of the shoulders has moved along the target line since address.',
    sign: TOWARD_TARGET,
    views: FACE_ON,
    checkpoints: AFTER_ADDRESS,
    aspects: VALUE,
    points: same('lead-shoulder', 'trail-shoulder'),
    reference: 'shoulder-width',
    compute: (places) => since(places, along, 'lead-shoulder', 'trail-shoulder'),
  },
  'lower-centre-shift': {
    ...LENGTH,
    label: 'Lower centre shift',
    formula: 'How far the middle of the hips has moved along the target line since address.',
    sign: TOWARD_TARGET,
    views: FACE_ON,
    checkpoints: AFTER_ADDRESS,
    aspects: VALUE,
    points: same('lead-hip', 'trail-hip'),
    reference: 'shoulder-width',
    compute: (places) => since(places, along, 'lead-hip', 'trail-hip'),
  },
  'stance-width': {
    ...LENGTH,
    label: 'Stance width',
    formula: 'The distance from ankle to ankle.',
    sign: null,
    views: FACE_ON,
    checkpoints: ['address'],
    aspects: VALUE,
    points: { here: ['lead-ankle', 'trail-ankle'], address: [] },
    upright: false,
    range: [0, Infinity],
    reference: 'shoulder-width',
    compute: ({ here }) => distance(here('lead-ankle'), here('trail-ankle')),
  },
  'elbow-gap': {
    ...RATIO,
    label: 'Elbow gap',
    formula: 'The distance from elbow to elbow, as a ratio to the same at address.',
    sign: null,
    views: FACE_ON,
    checkpoints: ['through'],
    aspects: VALUE,
    points: same('lead-elbow', 'trail-elbow'),
    compute: (places) => ratioToAddress(places, 'lead-elbow', 'trail-elbow'),
  },
  'club-radius': {
    ...RATIO,
    label: 'Club radius',
    formula:
      'The distance from lead shoulder to clubhead, as a ratio to the same at address. ' +
      'Above 1 before impact the club has been thrown early, and the arc reaches the ground behind the ball.',
    sign: null,
    views: FACE_ON,
    checkpoints: ['lead-arm-level-down', 'impact'],
    aspects: VALUE,
    points: same('lead-shoulder', 'clubhead'),
    compute: (places) => ratioToAddress(places, 'lead-shoulder', 'clubhead'),
  },
} as const satisfies Record<string, PlacedEntry>;
