import { BODY_POINTS } from '../../core/model/body-points.ts';
import type { BodyPointId } from '../../core/model/body-points.ts';
import type { MarkedSwing } from '../../core/model/swing.ts';
import type { Unit } from '../../core/model/reading.ts';
import { VIEWS } from '../../core/model/words.ts';
import type { Checkpoint, TimedCheckpoint, View } from '../../core/model/words.ts';
import { checkpointFrames } from '../../core/scene/checkpoint-frames.ts';
import type { Scenario } from '../../core/scene/scenario.ts';
import { add, vector } from '../../core/scene/vector.ts';
import type { Vector } from '../../core/scene/vector.ts';
import { markedAgain } from './marked-again.ts';
import { ALL_MARKS, offScene } from './off-scene.ts';
import type { Marking } from './off-scene.ts';
import type { Seeded } from '../../core/measure/uncertainty/seeded.ts';

/** How cameras, bodies and hands are drawn: one standard deviation each, of normal distributions. Of the test, not of the program. */
export interface Drawing {
  /** Degrees that a camera looks beside its line, and that it is rolled. */
  readonly yaw: number;
  readonly roll: number;
  /** Metres that the lens is higher or lower, still looking at the same place. */
  readonly height: number;
  /** How far it stands from the player, metres: middle and standard deviation. */
  readonly distance: readonly [number, number];
  /** How far the lens moves a place half a diagonal from the middle, as a part of 1. */
  readonly lens: number;
  /** Metres that the known length lies off the plane it stands for. */
  readonly plane: number;
  /** Pixels of a picture 1080 lines high. */
  readonly click: number;
  /** Metres that a joint is taken to lie off, in x, y and z: always so by this coach on this player, and on each frame anew. */
  readonly definition: { readonly shared: number; readonly anew: number };
  /** How far a player's swings of one lesson lie apart, by unit; what is not named does not scatter. A ratio: of a club's radius. */
  readonly scatter: Readonly<Partial<Record<Unit, number>>>;
  /** Of a tempo, which is a ratio too. */
  readonly tempo: number;
  /** Players differ: the stated scatter is worth so many degrees of freedom. Left out: all scatter as stated. */
  readonly worth?: number;
  /** Seconds that the instant meant lies off the frame that is named. */
  readonly naming: Readonly<Record<TimedCheckpoint, number>>;
}

export const DRAWING: Drawing = {
  yaw: 3,
  roll: 1,
  height: 0.1,
  distance: [5, 0.8],
  lens: 0.01,
  plane: 0.15,
  click: 3,
  definition: { shared: 0.01, anew: 0.01 },
  scatter: { deg: 2, cm: 1, s: 0.01, 'm/s': 1.4, ratio: 0.007 },
  tempo: 0.08,
  // Half a frame of 1/120 s besides 15 and 10 ms.
  naming: { takeaway: 0.0156, top: 0.0108, impact: 0.0042 },
};

/** As drawn, times a factor: what it costs when reality is not as the program states. */
export function drawnTimes(by: number, { distance, definition, scatter, tempo, naming, ...rest }: Drawing): Drawing {
  const { yaw, roll, height, lens, plane, click } = rest;
  return {
    ...rest,
    ...{ yaw: by * yaw, roll: by * roll, height: by * height, lens: by * lens, plane: by * plane, click: by * click },
    distance: [distance[0], by * distance[1]],
    definition: { shared: by * definition.shared, anew: by * definition.anew },
    scatter: Object.fromEntries(Object.entries(scatter).map(([unit, each]) => [unit, by * each])),
    tempo: by * tempo,
    naming: { takeaway: by * naming.takeaway, top: by * naming.top, impact: by * naming.impact },
  };
}

/** What lies under clothes, or is a middle of something seen from another side: its place is a matter of opinion. */
const OF_OPINION = BODY_POINTS.filter((point) => !/(heel|toe|ball|grip|club)/.test(point));

/** How one coach always sees one player's joints, a view. */
export type Eye = Readonly<Record<View, ReadonlyMap<BodyPointId, Vector>>>;

const NOWHERE = vector(0, 0, 0);

export function drawnEye(numbers: Seeded, { definition }: Drawing): Eye {
  const eye = () => new Map(OF_OPINION.map((point) => [point, somewhere(numbers, definition.shared)]));
  return { 'down-the-line': eye(), 'face-on': eye() };
}

function somewhere(numbers: Seeded, by: number): Vector {
  return vector(by * numbers.normal(), by * numbers.normal(), by * numbers.normal());
}

/** How players differ from one another, one standard deviation: turns as a part of themselves, places in metres. */
const TURNS_DIFFER = 0.12;
const PLACES_DIFFER = 0.05;

/** Another player: turned more or less, standing nearer or farther, else as the scenario has it. */
export function drawnPlayer(numbers: Seeded, scenario: Scenario): Scenario {
  const { motion } = scenario;
  const turned = (angles: readonly number[]) => {
    const by = 1 + TURNS_DIFFER * numbers.normal();
    return angles.map((angle) => by * angle);
  };
  const moved = (places: readonly number[]) => {
    const by = PLACES_DIFFER * numbers.normal();
    return places.map((place) => place + by);
  };
  const player = {
    ...scenario,
    motion: {
      ...motion,
      shoulderTurn: turned(motion.shoulderTurn),
      hipTurn: turned(motion.hipTurn),
      neckZ: moved(motion.neckZ),
      hipZ: moved(motion.hipZ),
    },
  };
  try {
    checkpointFrames(player);
    return player;
  } catch {
    // Nobody's arms or legs reach there: somebody else.
    return drawnPlayer(numbers, scenario);
  }
}

/** Where both cameras of one day stand. */
export type Cameras = Readonly<Record<View, ReturnType<typeof drawnCamera>>>;

/** The scene's stick lies at the toes. Drawn, it lies about the ankles' plane, for which it stands. */
const STICK_BEFORE_ANKLES = 0.1;

function drawnCamera(numbers: Seeded, scenario: Scenario, view: View, drawing: Drawing) {
  const { from, to } = scenario.cameras[view];
  const usual = Math.hypot(from.x - to.x, from.z - to.z);
  const [middle, spread] = drawing.distance;
  // Nobody films a swing from less than 3 m.
  const distance = Math.max(3, middle + spread * numbers.normal());
  return {
    yaw: drawing.yaw * numbers.normal(),
    roll: drawing.roll * numbers.normal(),
    raised: 0,
    above: drawing.height * numbers.normal(),
    nearer: usual - distance,
    lens: drawing.lens === 0 ? null : { k1: drawing.lens * numbers.normal(), k2: 0 },
    stickNearer: drawing.plane * numbers.normal() - (view === 'face-on' ? STICK_BEFORE_ANKLES : 0),
  };
}

export function drawnCameras(numbers: Seeded, scenario: Scenario, drawing: Drawing): Cameras {
  const [downTheLine, faceOn] = VIEWS.map((view) => drawnCamera(numbers, scenario, view, drawing));
  if (downTheLine === undefined || faceOn === undefined) throw new Error('drawn lessons: there are two views');
  return { 'down-the-line': downTheLine, 'face-on': faceOn };
}

/** One swing of a day, marked once by a hand. */
export function drawnSwing(
  numbers: Seeded,
  scenario: Scenario,
  { cameras, eye, date }: { readonly cameras: Cameras; readonly eye: Eye; readonly date: string },
  drawing: Drawing,
  marking: Marking = ALL_MARKS,
): MarkedSwing {
  const displaced = (view: View, _: Checkpoint, point: BodyPointId): Vector => {
    const always = eye[view].get(point);
    return always === undefined ? NOWHERE : add(always, somewhere(numbers, drawing.definition.anew));
  };
  const stickNearer = {
    'down-the-line': cameras['down-the-line'].stickNearer,
    'face-on': cameras['face-on'].stickNearer,
  };
  const { seen } = offScene(scenario, cameras, { ...marking, displaced, stickNearer });
  return { ...markedAgain(seen, drawing.click, numbers), date };
}
