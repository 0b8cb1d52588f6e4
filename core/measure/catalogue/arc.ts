import { say } from '../../model/say.ts';
import { ANYTHING, FACE_ON, TOWARD_TARGET, VALUE } from './entry.ts';
import type { ArcEntry, SpeedEntry } from './entry.ts';
import { fitted, length, moved } from './sketch.ts';

const ARC = {
  views: FACE_ON,
  checkpoints: ['impact'],
  aspects: VALUE,
  plausible: ANYTHING,
} as const;

/** Readings of the arc on which the clubhead comes through, fitted to its path round impact. */
export const ARC_ENTRIES = {
  'arc-radius': {
    ...ARC,
    quantity: 'arc',
    label: say`Arc radius`,
    formula: say`The radius of the arc that comes nearest to the clubhead's path round impact, in the plane of the arc.`,
    sign: null,
    isSize: true,
    parts: ['impact'],
    ball: false,
    range: [0, Infinity],
    compute: ({ arc }) => arc('impact').radius,
    sketch: (places) => {
      const arc = places.arc('impact');
      return arc === null ? [] : [...fitted(arc), length(arc.centre, arc.rim)];
    },
  },
  'low-point': {
    ...ARC,
    quantity: 'arc',
    label: say`Low point`,
    formula: say`How far the lowest point of the arc lies from the ball along the target line.`,
    sign: { plus: say`ahead of the ball`, minus: say`behind the ball` },
    isSize: false,
    parts: ['impact'],
    ball: true,
    range: null,
    // An arc is lowest under its centre.
    compute: ({ arc, ball }) => arc('impact').centre.along - ball().along,
    sketch: (places) => {
      const [arc, ball] = [places.arc('impact'), places.ball()];
      return arc === null || ball === null ? [] : [...fitted(arc), ...moved(ball, arc.low, places.along)];
    },
  },
  'arc-centre-shift': {
    ...ARC,
    quantity: 'arc',
    label: say`Arc centre shift`,
    formula: say`How far the centre of the arc round impact lies along the target line from the centre of the arc on which the clubhead left address. The low point moves with it by as much.`,
    sign: TOWARD_TARGET,
    isSize: false,
    parts: ['impact', 'address'],
    ball: false,
    range: null,
    compute: ({ arc }) => arc('impact').centre.along - arc('address').centre.along,
    sketch: (places) => {
      const [arc, before] = [places.arc('impact'), places.arc('address')];
      if (arc === null || before === null) return [];
      return [...fitted(arc), ...fitted(before), ...moved(before.centre, arc.centre, places.along)];
    },
  },
  'clubhead-speed': {
    ...ARC,
    quantity: 'speed',
    label: say`Clubhead speed`,
    formula: say`How fast the clubhead runs along its arc on the last frames up to impact.`,
    sign: null,
    isSize: true,
    sketch: (places) => {
      const arc = places.arc('impact');
      return arc === null ? [] : fitted(arc);
    },
  },
} as const satisfies Record<string, ArcEntry | SpeedEntry>;
