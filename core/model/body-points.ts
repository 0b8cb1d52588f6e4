import { say } from './say.ts';
import type { View } from './words.ts';

/** Every point that can be placed: on the player, on the club, the ball. In the order of a guided run. */
export const BODY_POINTS = [
  'head-centre',
  'neck-base',
  'tailbone',
  'lead-shoulder',
  'trail-shoulder',
  'lead-elbow',
  'trail-elbow',
  'lead-hip',
  'trail-hip',
  'lead-knee',
  'trail-knee',
  'lead-ankle',
  'trail-ankle',
  'lead-heel',
  'lead-toe',
  'trail-heel',
  'trail-toe',
  'grip-end',
  'clubhead',
  'ball',
] as const;
export type BodyPointId = (typeof BODY_POINTS)[number];

export interface BodyPointInfo {
  readonly label: string;
  /** Where exactly to place it, in words a coach can follow. */
  readonly where: string;
  /** The views in which readings use it. */
  readonly views: readonly View[];
}

const DTL: readonly View[] = ['down-the-line'];
const FACE: readonly View[] = ['face-on'];
const BOTH: readonly View[] = ['down-the-line', 'face-on'];

export const BODY_POINT_INFO: Readonly<Record<BodyPointId, BodyPointInfo>> = {
  'head-centre': { label: say`Head centre`, where: say`the middle of the skull, hat left out`, views: BOTH },
  'neck-base': { label: say`Neck base`, where: say`where the neck meets the back, on the spine`, views: BOTH },
  tailbone: { label: say`Tailbone`, where: say`the base of the spine, at the seat`, views: DTL },
  'lead-shoulder': {
    label: say`Lead shoulder`,
    where: say`the bony tip of the shoulder nearer the target`,
    views: BOTH,
  },
  'trail-shoulder': {
    label: say`Trail shoulder`,
    where: say`the bony tip of the shoulder farther from the target`,
    views: BOTH,
  },
  'lead-elbow': { label: say`Lead elbow`, where: say`the middle of the elbow joint`, views: FACE },
  'trail-elbow': { label: say`Trail elbow`, where: say`the middle of the elbow joint`, views: FACE },
  'lead-hip': { label: say`Lead hip`, where: say`the middle of the hip joint, at the top of the thigh`, views: BOTH },
  'trail-hip': { label: say`Trail hip`, where: say`the middle of the hip joint, at the top of the thigh`, views: BOTH },
  'lead-knee': { label: say`Lead knee`, where: say`the middle of the knee joint`, views: BOTH },
  'trail-knee': { label: say`Trail knee`, where: say`the middle of the knee joint`, views: BOTH },
  'lead-ankle': { label: say`Lead ankle`, where: say`the middle of the ankle joint`, views: BOTH },
  'trail-ankle': { label: say`Trail ankle`, where: say`the middle of the ankle joint`, views: BOTH },
  'lead-heel': { label: say`Lead heel`, where: say`the back of the shoe, on the ground`, views: BOTH },
  'lead-toe': { label: say`Lead toe`, where: say`the tip of the shoe, on the ground`, views: BOTH },
  'trail-heel': { label: say`Trail heel`, where: say`the back of the shoe, on the ground`, views: BOTH },
  'trail-toe': { label: say`Trail toe`, where: say`the tip of the shoe, on the ground`, views: BOTH },
  'grip-end': { label: say`Grip end`, where: say`the butt of the grip`, views: BOTH },
  clubhead: { label: say`Clubhead`, where: say`the middle of the clubhead`, views: BOTH },
  ball: { label: say`Ball`, where: say`the middle of the ball`, views: BOTH },
};
