import { BODY_POINTS, BODY_POINT_INFO } from '../../core/model/body-points.ts';
import type { BodyPointId } from '../../core/model/body-points.ts';
import type { FrameMarks, LineShape, PicturePoint, PlacedPoint, Shape } from '../../core/model/mark.ts';
import type { MarkedClip, MarkedSwing } from '../../core/model/swing.ts';
import { CHECKPOINTS, VIEWS } from '../../core/model/words.ts';
import type { Checkpoint, View } from '../../core/model/words.ts';
import { checkpointFrames } from '../../core/scene/checkpoint-frames.ts';
import type { CheckpointFrames, Scenario } from '../../core/scene/scenario.ts';
import { pointsInWorld, poseOfFrame } from '../../core/scene/truth.ts';
import { add, along, mirror, scale, vector } from '../../core/scene/vector.ts';
import type { Vector } from '../../core/scene/vector.ts';
import { offCamera } from './off-camera.ts';
import type { OffBy } from './off-camera.ts';

/** What is marked besides the body points. Everything that is true of the scene, none of it is drawn anywhere. */
export interface Marking {
  readonly plumb: boolean;
  readonly level: boolean;
  /** In which planes a known length lies, and the standard uncertainty of its length of 1 m, millimetres. */
  readonly knownLengths: readonly ('player' | 'ball')[];
  readonly knownLengthUMm: number;
  readonly headBox: boolean;
  readonly ground: boolean;
  readonly edges: boolean;
  readonly path: boolean;
  /** Body points that are marked, and those of them that are marked as hidden. */
  readonly points: readonly BodyPointId[];
  readonly hidden: readonly BodyPointId[];
  readonly checkpoints: readonly Checkpoint[];
  /** How far from its true place in the world a point is taken to lie, metres; nothing when left out. */
  readonly displaced?: (view: View, checkpoint: Checkpoint, point: BodyPointId) => Vector;
  /** Metres by which the known lengths of a view lie nearer to its camera than their plane; 0 when left out. */
  readonly stickNearer?: Readonly<Record<View, number>>;
}

export const ALL_MARKS: Marking = {
  plumb: true,
  level: false,
  knownLengths: ['player', 'ball'],
  knownLengthUMm: 2,
  headBox: true,
  ground: true,
  edges: false,
  path: true,
  points: BODY_POINTS,
  hidden: [],
  checkpoints: CHECKPOINTS,
};

/** Ticks of a frame; as many a second as make the scenario's rate. */
const TICKS = 128;

const NOWHERE = vector(0, 0, 0);

const known = new WeakMap<Scenario, CheckpointFrames>();

/** Found once a scenario: trials draw thousands of swings of it. */
function framesOf(scenario: Scenario): CheckpointFrames {
  const frames = known.get(scenario) ?? checkpointFrames(scenario);
  known.set(scenario, frames);
  return frames;
}

/**
 * One swing of a scenario, exactly marked: `seen` as its cameras show it, `ideal` as they would show it without their lens,
 * with no edges marked. Both have the same marks otherwise, so that a reading of `ideal` is what one of `seen` should be.
 */
export function offScene(
  scenario: Scenario,
  off: Readonly<Record<View, OffBy>>,
  marking: Marking,
): { readonly seen: MarkedSwing; readonly ideal: MarkedSwing } {
  const frames = framesOf(scenario);
  const swing = (isSeen: boolean): MarkedSwing => ({
    studentFirstName: 'Robin',
    date: '2026-05-12',
    club: '7 iron',
    handedness: scenario.handedness,
    clips: VIEWS.map((view) => clipOf(scenario, view, frames, off[view], marking, isSeen)),
  });
  return {
    seen: swing(true),
    // Few ask for it.
    get ideal() {
      return swing(false);
    },
  };
}

function clipOf(
  scenario: Scenario,
  view: View,
  frames: CheckpointFrames,
  off: OffBy,
  marking: Marking,
  isSeen: boolean,
): MarkedClip {
  const camera = offCamera(scenario, view, off);
  const place = isSeen ? camera.seen : camera.ideal;
  const isLeft = scenario.handedness === 'left';
  // Poses of a left-hander are mirrored already, and cameras mirror what they are given.
  const points = (index: number) => {
    const world = pointsInWorld(poseOfFrame(scenario, index));
    return (point: BodyPointId, off: Vector = NOWHERE): PicturePoint =>
      place(add(isLeft ? mirror(world[point]) : world[point], off));
  };
  const headAt = (index: number): PicturePoint => {
    const { 'head-centre': head } = pointsInWorld(poseOfFrame(scenario, index));
    return camera.ideal(isLeft ? mirror(head) : head);
  };
  const named = (index: number) => ({ index, pts: index * TICKS, ticks: TICKS });
  const shapes = [
    ...standing(scenario, view, marking, place, camera.camera.turn[0]),
    ...(marking.edges && isSeen ? edgesOf(scenario, view, off) : []),
    ...(marking.headBox && view === 'face-on' ? [boxRound(headAt(frames.address), isSeen ? camera.bend : unbent)] : []),
    ...(marking.path ? [pathOf(frames, (index) => points(index)('clubhead'))] : []),
  ];
  return {
    view,
    ...scenario.picture,
    timebase: { num: 1, den: scenario.framesPerSecond * TICKS },
    nominalRate: { num: scenario.framesPerSecond, den: 1 },
    captureRate: { framesPerSecond: { num: scenario.framesPerSecond, den: 1 }, confirmed: true },
    checkpoints: Object.fromEntries(marking.checkpoints.map((name) => [name, named(frames[name])])),
    marks: marking.checkpoints.map((checkpoint): FrameMarks => {
      const at = points(frames[checkpoint]);
      // The ball only where it still lies: once struck it leaves the picture.
      const inView = marking.points.filter(
        (point) =>
          BODY_POINT_INFO[point].views.includes(view) && (point !== 'ball' || frames[checkpoint] <= frames.impact),
      );
      const placed = inView.map((point): [string, PlacedPoint] => [
        point,
        { ...at(point, marking.displaced?.(view, checkpoint, point)), hidden: marking.hidden.includes(point) },
      ]);
      return {
        frame: { index: frames[checkpoint], pts: frames[checkpoint] * TICKS },
        points: Object.fromEntries(placed),
        shapes: checkpoint === 'address' ? shapes : [],
      };
    }),
  };
}

/** Posts, a level, sticks of a metre and the corners of a mat: what stands still. `right`: the camera's own axis. */
function standing(
  scenario: Scenario,
  view: View,
  marking: Marking,
  place: (world: Vector) => PicturePoint,
  right: Vector,
): readonly Shape[] {
  const { groundMarks } = scenario.surroundings;
  const shapes: Shape[] = [];
  const line = (id: string, role: LineShape['role'], a: Vector, b: Vector): LineShape => ({
    ...{ id, kind: 'line', role, a: place(a), b: place(b), lengthMm: null },
  });
  if (marking.plumb) shapes.push(line('post', 'plumb', vector(-0.7, 1.9, -0.7), vector(-0.7, 0.1, -0.7)));
  if (marking.level) {
    // Square to the camera, as a spirit level is held; any other level line runs to the horizon.
    const middle = vector(0, 1.3, 0);
    const across = scale({ ...right, y: 0 }, 0.8 / Math.hypot(right.x, right.z));
    shapes.push(line('bar', 'level', along(middle, across, -1), add(middle, across)));
  }
  for (const plane of marking.knownLengths) {
    const nearer = marking.stickNearer?.[view] ?? 0;
    const off = (plane === 'player' ? 0.1 : scenario.ball.z) + nearer;
    const across = scenario.ball.x - nearer;
    const [a, b] =
      view === 'face-on' ? [vector(-0.5, 0, off), vector(0.5, 0, off)] : [vector(across, 0, 0), vector(across, 0, 1)];
    const stick = line(`stick for ${plane}`, 'yardstick', a, b);
    shapes.push({ ...stick, plane, lengthMm: 1000, lengthUMm: marking.knownLengthUMm });
  }
  if (marking.ground) {
    const places = groundMarks.map((mark) => ({ ...place(mark), target: 1000 * mark.x, ball: 1000 * mark.z }));
    shapes.push({ id: 'mat', kind: 'ground', layout: 'mat', places });
  }
  return shapes;
}

/** Straight edges of a wall square to the camera: a rectangle near the picture's rim, nine places on each side. */
function edgesOf(scenario: Scenario, view: View, off: OffBy): readonly Shape[] {
  const { bend } = offCamera(scenario, view, off);
  const { width, height } = scenario.picture;
  const [left, right, top, bottom] = [0.05 * width, 0.95 * width, 0.06 * height, 0.94 * height];
  const side = (id: string, a: PicturePoint, b: PicturePoint): Shape => ({
    id,
    kind: 'edge',
    places: Array.from({ length: 9 }, (_, i) => {
      const at = { x: a.x + ((b.x - a.x) * i) / 8, y: a.y + ((b.y - a.y) * i) / 8 };
      return bend(at);
    }),
  });
  return [
    side('upper edge', { x: left, y: top }, { x: right, y: top }),
    side('lower edge', { x: left, y: bottom }, { x: right, y: bottom }),
    side('left edge', { x: left, y: top }, { x: left, y: bottom }),
    side('right edge', { x: right, y: top }, { x: right, y: bottom }),
  ];
}

/** Half of the sides of the box that is drawn round the head, pixels. */
export const HEAD_BOX = { across: 54, up: 64 } as const;

/** `bend`: what the lens makes of a place; the box is drawn round the head as it is seen. */
function boxRound({ x, y }: PicturePoint, bend: (place: PicturePoint) => PicturePoint): Shape {
  const { across, up } = HEAD_BOX;
  const [from, to] = [bend({ x: x - across, y: y - up }), bend({ x: x + across, y: y + up })];
  return { id: 'box', kind: 'box', role: 'head-box', ...from, width: to.x - from.x, height: to.y - from.y };
}

function unbent(place: PicturePoint): PicturePoint {
  return place;
}

/** Every frame from address to takeaway and from the lead arm level on the way down to through. */
export function pathIndices(frames: CheckpointFrames): readonly number[] {
  const run = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, i) => from + i);
  return [...run(frames.address, frames.takeaway), ...run(frames['lead-arm-level-down'], frames.through)];
}

function pathOf(frames: CheckpointFrames, at: (index: number) => PicturePoint): Shape {
  return {
    id: 'path',
    kind: 'path',
    subject: 'clubhead',
    places: pathIndices(frames).map((index) => ({ ...at(index), pts: index * TICKS })),
  };
}
