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
  'head-centre': { label: 'Head centre', where: 'the middle of the skull, hat left out', views: BOTH },
  'neck-base': { label: 'Neck base', where: 'where the neck meets the back, on the spine', views: BOTH },
  tailbone: { label: 'Tailbone', where: 'the base of the spine, at the seat', views: DTL },
  'lead-shoulder': { label: 'Lead shoulder', where: 'the bony tip of the shoulder nearer the target', views: BOTH },
  'trail-shoulder': {
    label: 'Trail shoulder',
    where: 'the bony tip of the shoulder farther from the target',
    views: BOTH,
  },
  'lead-elbow': { label: 'Lead elbow', where: 'the middle of the elbow joint', views: FACE },
  'trail-elbow': { label: 'Trail elbow', where: 'the middle of the elbow joint', views: FACE },
  'lead-hip': { label: 'Lead hip', where: 'the middle of the hip joint, at the top of the thigh', views: BOTH },
  'trail-hip': { label: 'Trail hip', where: 'the middle of the hip joint, at the top of the thigh', views: BOTH },
  'lead-knee': { label: 'Lead knee', where: 'the middle of the knee joint', views: BOTH },
  'trail-knee': { label: 'Trail knee', where: 'the middle of the knee joint', views: BOTH },
  'lead-ankle': { label: 'Lead ankle', where: 'the middle of the ankle joint', views: BOTH },
  'trail-ankle': { label: 'Trail ankle', where: 'the middle of the ankle joint', views: BOTH },
  'lead-heel': { label: 'Lead heel', where: 'the back of the shoe, on the ground', views: BOTH },
  'lead-toe': { label: 'Lead toe', where: 'the tip of the shoe, on the ground', views: BOTH },
  'trail-heel': { label: 'Trail heel', where: 'the back of the shoe, on the ground', views: BOTH },
  'trail-toe': { label: 'Trail toe', where: 'the tip of the shoe, on the ground', views: BOTH },
  'grip-end': { label: 'Grip end', where: 'the butt of the grip', views: BOTH },
  clubhead: { label: 'Clubhead', where: 'the middle of the clubhead', views: BOTH },
  ball: { label: 'Ball', where: 'the middle of the ball', views: BOTH },
};
