import { FACE_ON, TOWARD_TARGET, VALUE } from './entry.ts';
import type { ArcEntry } from './entry.ts';

const ARC = { quantity: 'arc', views: FACE_ON, checkpoints: ['impact'], aspects: VALUE } as const;

/** Readings of the arc on which the clubhead comes through, fitted to its path round impact. */
export const ARC_ENTRIES = {
  'arc-radius': {
    ...ARC,
    of: 'radius',
    label: 'Arc radius',
    formula: "The radius of the arc that comes nearest to the clubhead's path round impact, in the plane of the arc.",
    sign: null,
  },
  'low-point': {
    ...ARC,
    of: 'low-point',
    label: 'Low point',
    formula: 'How far the lowest point of the arc lies from the ball along the target line.',
    sign: { plus: 'ahead of the ball', minus: 'behind the ball' },
  },
  'arc-centre-shift': {
    ...ARC,
    of: 'centre-shift',
    label: 'Arc centre shift',
    formula:
      'How far the centre of the arc round impact lies along the target line from the centre of the arc on which the ' +
      'clubhead left address. The low point moves with it by as much.',
    sign: TOWARD_TARGET,
  },
  'clubhead-speed': {
    ...ARC,
    of: 'speed',
    label: 'Clubhead speed',
    formula: 'How fast the clubhead runs along its arc on the last frames up to impact.',
    sign: null,
  },
} as const satisfies Record<string, ArcEntry>;
