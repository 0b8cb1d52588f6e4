import type { FrameMarks } from '../../../core/model/mark.ts';

/** Every kind of mark once, on an invented player in a picture of 360 x 480. */
export const EVERY_MARK: FrameMarks = {
  frame: { index: 118, pts: 60416 },
  points: {
    'head-centre': { x: 220, y: 170, hidden: false },
    'neck-base': { x: 190, y: 200, hidden: false },
    tailbone: { x: 120, y: 280, hidden: false },
    'lead-knee': { x: 180, y: 360, hidden: true },
    ball: { x: 320, y: 440, hidden: false },
  },
  shapes: [
    { id: 'line', kind: 'line', a: { x: 10, y: 20 }, b: { x: 110, y: 20 }, role: null, lengthMm: null },
    { id: 'yard', kind: 'line', a: { x: 200, y: 460 }, b: { x: 300, y: 460 }, role: 'yardstick', lengthMm: 1000 },
    { id: 'angle', kind: 'angle', vertex: { x: 60, y: 300 }, a: { x: 60, y: 200 }, b: { x: 160, y: 300 } },
    { id: 'box', kind: 'box', x: 195, y: 145, width: 50, height: 55, role: 'head-box' },
    { id: 'circle', kind: 'circle', centre: { x: 320, y: 440 }, radius: 20 },
  ],
};
