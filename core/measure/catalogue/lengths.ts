import { say } from '../../model/say.ts';
import { distanceToLine } from '../../geometry/line.ts';
import { distance } from '../../geometry/point.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { MeasuredReading } from '../../model/reading.ts';
import { ANYTHING, DOWN_THE_LINE, FACE_ON, VALUE, plausibly } from './entry.ts';
import type { PlacedEntry, Places } from './entry.ts';
import { length, line, offLine } from './sketch.ts';
import type { SketchPlaces } from './sketch.ts';

const LENGTH = {
  quantity: 'length',
  headBox: false,
  edges: false,
  // The camera's roll turns all that is read alike.
  upright: false,
  ground: false,
  plane: 'player',
  range: null,
} as const;

/** Distance of two points as a ratio to the same distance at address; null when it was 0 there. */
function ratioToAddress(a: BodyPointId, b: BodyPointId) {
  return {
    ...LENGTH,
    quantity: 'ratio',
    reference: null,
    range: [0, Infinity],
    sign: null,
    isSize: true,
    views: FACE_ON,
    aspects: VALUE,
    points: { here: [a, b], address: [a, b] },
    compute: ({ here, address }: Places) => {
      const then = distance(address(a), address(b));
      return then === 0 ? null : distance(here(a), here(b)) / then;
    },
    sketch: ({ here, address }: SketchPlaces) => [length(here(a), here(b)), line(address(a), address(b))],
  } as const;
}

/**
 * Signed distance from the endless line of the shaft at address. Seen from behind the player with the ball on +along, that
 * line rises from the ball to the hands; its outer side, + here, is the one away from the player.
 */
function offPlane(label: string, what: string, point: 'grip-end' | 'clubhead', sign: NonNullable<PlacedEntry['sign']>) {
  return {
    ...LENGTH,
    label,
    formula: say`How far the ${what} is off the line of the shaft at address.`,
    sign,
    isSize: false,
    views: DOWN_THE_LINE,
    checkpoints: ['takeaway', 'lead-arm-level', 'top', 'lead-arm-level-down', 'impact'],
    aspects: VALUE,
    points: { here: [point], address: ['grip-end', 'clubhead'] },
    reference: 'club',
    compute: ({ here, address }: Places) => distanceToLine(here(point), address('grip-end'), address('clubhead')),
    plausible: ANYTHING,
    sketch: ({ here, address }: SketchPlaces) => offLine(here(point), address('grip-end'), address('clubhead')),
  } as const satisfies PlacedEntry;
}

/** Whether the club's radius has grown since address: said only where its whole interval lies on one side of 1. */
function radiusWords({ interval: [low, high] }: MeasuredReading): string {
  if (low > 1) return say`longer than at address`;
  return high < 1 ? say`shorter than at address` : say`can't tell from address`;
}

/** Readings of how far two things are apart. */
export const LENGTH_ENTRIES = {
  'hands-off-plane': offPlane(say`Hands from shaft line`, 'grip end', 'grip-end', {
    // High up, the outer side of a line that rises away from the ball is above it.
    plus: say`outside or above the line`,
    minus: say`inside or under the line`,
  }),
  'head-off-plane': offPlane(say`Clubhead from shaft line`, 'clubhead', 'clubhead', {
    plus: say`outside the line`,
    minus: say`inside the line`,
  }),
  'stance-width': {
    ...LENGTH,
    label: say`Stance width`,
    formula: say`The distance from ankle to ankle.`,
    sign: null,
    isSize: true,
    views: FACE_ON,
    checkpoints: ['address'],
    aspects: VALUE,
    points: { here: ['lead-ankle', 'trail-ankle'], address: [] },
    range: [0, Infinity],
    reference: 'shoulder-width',
    compute: ({ here }) => distance(here('lead-ankle'), here('trail-ankle')),
    plausible: [plausibly('cm', 2, 120), plausibly('% shoulder width', 10, 300)],
    sketch: ({ here }) => [length(here('lead-ankle'), here('trail-ankle'))],
  },
  'elbow-gap': {
    ...ratioToAddress('lead-elbow', 'trail-elbow'),
    label: say`Elbow gap`,
    formula: say`The distance from elbow to elbow, as a ratio to the same at address.`,
    checkpoints: ['through'],
    plausible: [plausibly('ratio', 0.05, 5)],
    withdrawn: [
      {
        views: FACE_ON,
        checkpoints: ['through'],
        why: say`The gap in the picture shrinks as the arms turn away from the camera: it was 0.49 of that at address where the elbows were at 0.71. No reading measures it yet.`,
      },
    ],
  },
  'club-radius': {
    ...ratioToAddress('lead-shoulder', 'clubhead'),
    label: say`Club radius`,
    formula: say`The distance from lead shoulder to clubhead, as a ratio to the same at address. Above 1 it is longer than at address.`,
    checkpoints: ['lead-arm-level-down', 'impact'],
    meaning: radiusWords,
    plausible: [plausibly('ratio', 0.4, 1.6)],
    withdrawn: [
      {
        views: FACE_ON,
        checkpoints: ['lead-arm-level-down'],
        why: say`On the way down the club leans away from the picture: the radius looked 0.56 of that at address where it was 0.67. Read it at impact.`,
      },
    ],
  },
} as const satisfies Record<string, PlacedEntry>;
