import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { PicturePoint } from '../../../core/model/mark.ts';
import type { Handedness, View } from '../../../core/model/words.ts';

/** The frame of the small figure, in its own units. */
export const FIGURE = { width: 120, height: 140 } as const;

type Places = Readonly<Record<BodyPointId, readonly [x: number, y: number]>>;

/** Seen from the front, a right-handed player: the target, and with it the lead side, is at the right. */
const FACE_ON: Places = {
  'head-centre': [57, 20],
  'neck-base': [57, 34],
  tailbone: [57, 74],
  'lead-shoulder': [73, 40],
  'trail-shoulder': [41, 42],
  'lead-elbow': [73, 60],
  'trail-elbow': [43, 61],
  'lead-hip': [66, 76],
  'trail-hip': [48, 76],
  'lead-knee': [70, 100],
  'trail-knee': [44, 100],
  'lead-ankle': [72, 123],
  'trail-ankle': [42, 123],
  'lead-heel': [71, 129],
  'lead-toe': [79, 134],
  'trail-heel': [43, 129],
  'trail-toe': [35, 134],
  'grip-end': [60, 78],
  clubhead: [56, 130],
  ball: [62, 134],
};

/** Seen along the target line, a right-handed player bent over toward the ball, which is at the right. */
const DOWN_THE_LINE: Places = {
  'head-centre': [66, 19],
  'neck-base': [55, 30],
  tailbone: [28, 66],
  'lead-shoulder': [63, 38],
  'trail-shoulder': [54, 41],
  'lead-elbow': [67, 55],
  'trail-elbow': [58, 57],
  'lead-hip': [38, 70],
  'trail-hip': [30, 76],
  'lead-knee': [49, 95],
  'trail-knee': [41, 99],
  'lead-ankle': [39, 121],
  'trail-ankle': [31, 124],
  'lead-heel': [37, 126],
  'lead-toe': [53, 126],
  'trail-heel': [28, 131],
  'trail-toe': [45, 132],
  'grip-end': [70, 72],
  clubhead: [101, 127],
  ball: [108, 133],
};

/** Where a body point lies on the small figure; mirrored for left-handers, as their pictures are. */
export function placeOnFigure(view: View, point: BodyPointId, handedness: Handedness): PicturePoint {
  const [x, y] = (view === 'face-on' ? FACE_ON : DOWN_THE_LINE)[point];
  return { x: handedness === 'left' ? FIGURE.width - x : x, y };
}
