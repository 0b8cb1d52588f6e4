import type { LineShape, PathShape, PicturePoint, Shape } from '../../../core/model/mark.ts';
import type { MarkedClip, MarkedSwing } from '../../../core/model/swing.ts';
import type { Handedness } from '../../../core/model/words.ts';

/**
 * A clubhead on a true circle: radius 1.6 m in a plane that holds the target line and leans 55 degrees, seen by two cameras
 * from far away at 4 mm a pixel. 240 true frames a second, 9 degrees a frame: R times 2160 degrees a second is 60.3 m/s.
 */
export const DEGREE = Math.PI / 180;
export const MM_A_PIXEL = 4;
export const RADIUS = 1600 / MM_A_PIXEL;
export const INCLINE = 55 * DEGREE;
export const TURN = 9 * DEGREE;
export const RATE = 240;
const TICKS = 64;
const IMPACT = 100;
const WIDTH = 1920;

export interface Given {
  /** Pixels by which the centre round impact lies toward the target from where it was at address. */
  readonly moved?: number;
  /** Pixels from the centre round impact to the ball. */
  readonly ball?: number;
  readonly roll?: number;
  readonly captureRate?: MarkedClip['captureRate'];
  readonly shapes?: readonly Shape[];
  readonly downTheLine?: 'path' | 'shaft' | 'nothing';
  readonly handedness?: Handedness;
  readonly place?: (at: PicturePoint) => PicturePoint;
  /** Frames of the path round impact: before it and after it. */
  readonly frames?: readonly [number, number];
  readonly turn?: number;
}

const knownLength: LineShape = {
  id: 'stick',
  kind: 'line',
  a: { x: 300, y: 1000 },
  b: { x: 550, y: 1000 },
  role: 'yardstick',
  lengthMm: 1000,
  plane: 'ball',
};

const frame = (index: number) => ({ index, pts: index * TICKS });
const named = (index: number) => ({ ...frame(index), ticks: TICKS });
const CHECKPOINTS = {
  address: named(0),
  takeaway: named(12),
  top: named(60),
  'lead-arm-level-down': named(IMPACT - 9),
  impact: named(IMPACT),
  through: named(IMPACT + 9),
};

export function arcSwing(given: Given = {}): MarkedSwing {
  const { moved = 0, ball = 0, roll = 0, handedness = 'right', place = (at) => at, turn = TURN } = given;
  const side = handedness === 'right' ? 1 : -1;
  const centre = { x: 900 + moved, y: 500 };
  const turned = ({ x, y }: PicturePoint): PicturePoint => {
    const [dx, dy] = [x - 900, y - 500];
    const [cos, sin] = [Math.cos(roll), Math.sin(roll)];
    const at = { x: 900 + dx * cos - dy * sin, y: 500 + dx * sin + dy * cos };
    return place(side === 1 ? at : { x: WIDTH - at.x, y: at.y });
  };
  const onArc = (phase: number, from: number): PicturePoint => ({
    x: from + RADIUS * Math.cos(phase),
    y: centre.y - RADIUS * Math.sin(INCLINE) * Math.sin(phase),
  });
  const [before, after] = given.frames ?? [9, 9];
  const round = Array.from({ length: before + after + 1 }, (_, i) => IMPACT - before + i);
  const path: PathShape = {
    id: 'path',
    kind: 'path',
    subject: 'clubhead',
    places: [
      // Away from the ball: the low point at address, then 7 degrees a frame up.
      ...Array.from({ length: 12 }, (_, i) => ({
        ...turned(onArc(-Math.PI / 2 - i * 7 * DEGREE, 900)),
        pts: i * TICKS,
      })),
      ...round.map((index) => ({
        ...turned(onArc(-Math.PI / 2 + (index - IMPACT) * turn, centre.x)),
        pts: index * TICKS,
      })),
    ],
  };
  const ballAt = turned({ x: centre.x + ball, y: centre.y + RADIUS * Math.sin(INCLINE) });
  const plumb: LineShape = {
    id: 'plumb',
    kind: 'line',
    a: turned({ x: 1500, y: 900 }),
    b: turned({ x: 1500, y: 100 }),
    role: 'plumb',
    lengthMm: null,
  };
  const faceOn: MarkedClip = {
    view: 'face-on',
    width: WIDTH,
    height: 1080,
    timebase: { num: 1, den: RATE * TICKS },
    nominalRate: { num: RATE, den: 1 },
    captureRate:
      given.captureRate === undefined ? { framesPerSecond: { num: RATE, den: 1 }, confirmed: true } : given.captureRate,
    checkpoints: CHECKPOINTS,
    marks: [
      { frame: frame(0), points: {}, shapes: [path, plumb, ...(given.shapes ?? [knownLength])] },
      { frame: frame(IMPACT), points: { ball: { ...ballAt, hidden: false } }, shapes: [] },
    ],
  };
  const how = given.downTheLine ?? 'path';
  // Seen from its edge the plane is a line that rises away from the ball: 55 degrees from the ground.
  const edge = (far: number): PicturePoint => ({
    x: side === 1 ? 1300 - far * Math.cos(INCLINE) : WIDTH - 1300 + far * Math.cos(INCLINE),
    y: 950 - far * Math.sin(INCLINE),
  });
  const behind: MarkedClip = {
    ...faceOn,
    view: 'down-the-line',
    marks: [
      {
        frame: frame(0),
        points:
          how === 'shaft'
            ? { 'grip-end': { ...edge(300), hidden: false }, clubhead: { ...edge(0), hidden: false } }
            : {},
        shapes:
          how === 'path'
            ? [
                {
                  ...path,
                  id: 'edge path',
                  places: round.map((index) => ({
                    ...edge(RADIUS * (1 - Math.cos((index - IMPACT) * turn))),
                    pts: index * TICKS,
                  })),
                },
              ]
            : [],
      },
    ],
  };
  return {
    studentFirstName: 'Ada',
    date: '2026-05-12',
    club: '7 iron',
    handedness,
    clips: how === 'nothing' ? [faceOn] : [behind, faceOn],
  };
}
