import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { CheckpointFrame } from '../../../core/model/frame.ts';
import type { FrameMarks, LineShape, PicturePoint, PlacedPoint, Shape } from '../../../core/model/mark.ts';
import type { MarkedClip, MarkedSwing } from '../../../core/model/swing.ts';
import { CHECKPOINTS } from '../../../core/model/words.ts';
import type { Checkpoint, View } from '../../../core/model/words.ts';

/**
 * An invented right-handed swing with every checkpoint named and every point placed, in 1920 x 1080: positions by hand,
 * roughly a golfer of 700 px. Truth for tests: readings of these places are what readings of disturbed ones are held to.
 */

export const WIDTH = 1920;
export const HEIGHT = 1080;
const TICKS = 128;

type Pose = Readonly<Partial<Record<BodyPointId, readonly [number, number]>>>;

/** Down the line at address: the ball is to the right, the player's back to the left. */
const BEHIND: Pose = {
  'head-centre': [1010, 330],
  'neck-base': [950, 390],
  tailbone: [790, 600],
  'lead-shoulder': [985, 425],
  'trail-shoulder': [955, 430],
  'lead-hip': [835, 598],
  'trail-hip': [815, 606],
  'lead-knee': [885, 745],
  'trail-knee': [868, 752],
  'lead-ankle': [845, 895],
  'trail-ankle': [832, 905],
  'lead-heel': [815, 925],
  'lead-toe': [905, 930],
  'trail-heel': [800, 938],
  'trail-toe': [892, 944],
  'grip-end': [985, 640],
  clubhead: [1235, 940],
  ball: [1255, 945],
};

/** Face on at address: the target is to the right. */
const FACING: Pose = {
  'head-centre': [930, 270],
  'neck-base': [945, 345],
  'lead-shoulder': [1035, 385],
  'trail-shoulder': [865, 405],
  'lead-elbow': [1025, 500],
  'trail-elbow': [890, 512],
  'lead-hip': [1010, 590],
  'trail-hip': [900, 594],
  'lead-knee': [1040, 745],
  'trail-knee': [872, 748],
  'lead-ankle': [1070, 905],
  'trail-ankle': [835, 908],
  'lead-heel': [1062, 930],
  'lead-toe': [1100, 950],
  'trail-heel': [840, 932],
  'trail-toe': [805, 952],
  'grip-end': [975, 610],
  clubhead: [945, 945],
  ball: [955, 950],
};

/** What moves by when, in pixels; what is not named here stays as at address. */
const BEHIND_LATER: Readonly<Partial<Record<Checkpoint, Pose>>> = {
  takeaway: { 'lead-shoulder': [1000, 450], 'trail-shoulder': [930, 405], tailbone: [789, 601] },
  'lead-arm-level': { 'lead-shoulder': [1020, 500], 'trail-shoulder': [905, 385], tailbone: [786, 598] },
  top: {
    'lead-shoulder': [1025, 520],
    'trail-shoulder': [890, 385],
    tailbone: [784, 596],
    'trail-knee': [858, 752],
    'trail-hip': [822, 600],
    'lead-hip': [830, 606],
  },
  impact: {
    tailbone: [812, 583],
    'trail-knee': [905, 758],
    'lead-shoulder': [960, 380],
    'trail-shoulder': [1000, 440],
  },
  finish: { tailbone: [840, 530], 'neck-base': [860, 300], 'trail-knee': [930, 770] },
};
const FACING_LATER: Readonly<Partial<Record<Checkpoint, Pose>>> = {
  takeaway: { 'head-centre': [928, 270], 'lead-shoulder': [1015, 400] },
  'lead-arm-level': { 'head-centre': [920, 272], 'lead-shoulder': [985, 430], 'trail-shoulder': [870, 370] },
  top: {
    'head-centre': [905, 275],
    'neck-base': [925, 348],
    'lead-shoulder': [945, 450],
    'trail-shoulder': [880, 345],
    'trail-knee': [868, 742],
    'lead-hip': [1000, 600],
    'trail-hip': [898, 588],
  },
  'lead-arm-level-down': { 'head-centre': [915, 280], clubhead: [700, 560], 'lead-hip': [1030, 588] },
  impact: {
    'head-centre': [922, 278],
    'lead-shoulder': [1040, 360],
    'trail-shoulder': [880, 430],
    'lead-hip': [1048, 578],
    'trail-hip': [935, 596],
    'lead-knee': [1072, 742],
    clubhead: [958, 944],
  },
  through: { 'lead-elbow': [1080, 470], 'trail-elbow': [985, 520], 'head-centre': [925, 275] },
  finish: { 'head-centre': [1010, 240], 'neck-base': [1020, 310], 'lead-hip': [1060, 570], 'trail-hip': [1030, 580] },
};

export interface Invention {
  readonly plumb: boolean;
  readonly knownLength: boolean;
  readonly headBox: boolean;
}

export const ALL_SHAPES: Invention = { plumb: true, knownLength: true, headBox: true };

export function frameOf(checkpoint: Checkpoint): CheckpointFrame {
  const index = 20 + 15 * CHECKPOINTS.indexOf(checkpoint);
  return { index, pts: index * TICKS, ticks: TICKS };
}

export function line(role: LineShape['role'], a: PicturePoint, b: PicturePoint, lengthMm: number | null): LineShape {
  return { id: `${role ?? 'line'}-1`, kind: 'line', role, a, b, lengthMm };
}

function clipOf(
  view: View,
  start: Pose,
  later: Readonly<Partial<Record<Checkpoint, Pose>>>,
  shapes: Invention,
): MarkedClip {
  const marks = CHECKPOINTS.map((checkpoint): FrameMarks => {
    const { index, pts } = frameOf(checkpoint);
    const entries = Object.entries({ ...start, ...later[checkpoint] }).map(([point, place]): [string, PlacedPoint] => [
      point,
      { x: place[0], y: place[1], hidden: false },
    ]);
    const drawn: Shape[] = [];
    if (checkpoint === 'address') {
      if (shapes.plumb) drawn.push(line('plumb', { x: 1500, y: 900 }, { x: 1512, y: 200 }, null));
      if (shapes.knownLength) drawn.push(line('yardstick', { x: 600, y: 980 }, { x: 1100, y: 985 }, 1000));
      if (shapes.headBox && view === 'face-on')
        drawn.push({ id: 'box-1', kind: 'box', role: 'head-box', x: 885, y: 215, width: 90, height: 110 });
    }
    return { frame: { index, pts }, points: Object.fromEntries(entries), shapes: drawn };
  });
  return {
    view,
    width: WIDTH,
    height: HEIGHT,
    timebase: { num: 1, den: 120 * TICKS },
    nominalRate: { num: 120, den: 1 },
    captureRate: { framesPerSecond: { num: 120, den: 1 }, confirmed: true },
    checkpoints: Object.fromEntries(CHECKPOINTS.map((checkpoint) => [checkpoint, frameOf(checkpoint)])),
    marks,
  };
}

export function inventedSwing(shapes: Invention = ALL_SHAPES): MarkedSwing {
  return {
    studentFirstName: 'Ada',
    date: '2026-05-12',
    club: '7 iron',
    handedness: 'right',
    clips: [clipOf('down-the-line', BEHIND, BEHIND_LATER, shapes), clipOf('face-on', FACING, FACING_LATER, shapes)],
  };
}

/** The same marks with every place of the picture put through `move`; boxes by two opposite corners. */
export function movedSwing(swing: MarkedSwing, move: (place: PicturePoint) => PicturePoint): MarkedSwing {
  const clips = swing.clips.map((clip) => ({
    ...clip,
    marks: clip.marks.map((marks) => ({
      ...marks,
      points: Object.fromEntries(
        Object.entries(marks.points).map(([id, { hidden, ...place }]) => [id, { ...move(place), hidden }]),
      ),
      shapes: marks.shapes.map((shape) => movedShape(shape, move)),
    })),
  }));
  return { ...swing, clips };
}

function movedShape(shape: Shape, move: (place: PicturePoint) => PicturePoint): Shape {
  switch (shape.kind) {
    case 'line':
      return { ...shape, a: move(shape.a), b: move(shape.b) };
    case 'angle':
      return { ...shape, vertex: move(shape.vertex), a: move(shape.a), b: move(shape.b) };
    case 'circle':
      return { ...shape, centre: move(shape.centre) };
    case 'free':
    case 'edge':
      return { ...shape, places: shape.places.map(move) };
    case 'ground':
      return { ...shape, places: shape.places.map((place) => ({ ...place, ...move(place) })) };
    case 'path':
      return { ...shape, places: shape.places.map((place) => ({ ...place, ...move(place) })) };
    case 'box': {
      const one = move({ x: shape.x, y: shape.y });
      const other = move({ x: shape.x + shape.width, y: shape.y + shape.height });
      const [x, y] = [Math.min(one.x, other.x), Math.min(one.y, other.y)];
      return { ...shape, x, y, width: Math.abs(other.x - one.x), height: Math.abs(other.y - one.y) };
    }
    default:
      throw new Error('movedSwing: an invented swing has no such shape');
  }
}
