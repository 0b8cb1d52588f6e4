import type { Checkpoint, Handedness, View } from '../model/words.ts';
import type { CameraPlace } from './camera.ts';
import type { Vector } from './vector.ts';

/** Sizes of the invented player, in metres. All stay the same through the swing. */
export interface BodySizes {
  readonly thigh: number;
  readonly shank: number;
  readonly upperArm: number;
  /** Elbow to wrist. */
  readonly forearm: number;
  /** Wrist to the middle of the closed hand, on the line of the forearm. */
  readonly hand: number;
  /** Between the bony tips of the shoulders. */
  readonly shoulderWidth: number;
  /** Between the hip joints. */
  readonly hipWidth: number;
  /** Tailbone to neck base. */
  readonly spine: number;
  /** Neck base to the middle of the skull. */
  readonly neck: number;
  /** Heel to tip of the shoe. */
  readonly shoe: number;
  /** Ankle joint above the sole, and ahead of the heel. */
  readonly ankleHeight: number;
  readonly ankleAhead: number;
}

export interface ClubSizes {
  /** Butt of the grip to the middle of the clubhead. */
  readonly length: number;
  /** From the butt to the middle of the lead and of the trail hand. */
  readonly leadHand: number;
  readonly trailHand: number;
  /** Middle of the clubhead above the ground when it is soled. */
  readonly soledHeight: number;
  /** From the ball's middle back to the clubhead's middle when the face meets the ball, and at address. */
  readonly contactGap: number;
  readonly addressGap: number;
}

/**
 * What moves, one list of numbers a channel, each number at the key time of the same place. Angles in degrees, lengths in
 * metres, knees as interior angles (180 = straight). Turns are positive in the backswing, negative once open to the target.
 */
export const CHANNELS = [
  'leadKnee',
  'trailKnee',
  /** Middle of the hip joints: + toward the target; + toward the ball. Its height follows from the knees. */
  'hipX',
  'hipZ',
  'hipTurn',
  /** Neck base: + toward the target; + toward the ball. Its height follows from the length of the spine. */
  'neckX',
  'neckZ',
  /** Line neck base to head centre: lean toward the ball, and toward the target, from vertical. */
  'headLean',
  'headSide',
  /** Where the face looks: turn from the ball side toward the target, and down from level. */
  'faceTurn',
  'faceDown',
  'shoulderTurn',
  /** Axis that the shoulders turn round: lean from vertical toward the ball, and toward the target. */
  'axisLean',
  'axisSide',
  /** Direction of the lead arm: angle in the arm plane (0 hanging, 90 away from the target), off that plane, share of its full length. */
  'armAngle',
  'armOff',
  'armReach',
  /** Direction of the shaft: angle in the shaft plane (0 down, 90 away from the target, 270 at the target at the top), off it; incline of the plane. */
  'shaftAngle',
  'shaftOff',
  'shaftPlane',
  /** Turn of the clubhead about the shaft, + open. */
  'faceTurn',
  /** Where the elbows point: 0 down, 90 away from the player's middle. */
  'leadElbow',
  'trailElbow',
  /** Foot turned out from square; heel lifted: angle of the sole. */
  'leadFlare',
  'trailFlare',
  'trailHeel',
] as const;
export type Channel = (typeof CHANNELS)[number];
export type Motion = Readonly<Record<Channel, readonly number[]>>;

/** One swing of one player, complete: everything that the scene is made of, as plain data. */
export interface Scenario {
  readonly handedness: Handedness;
  readonly body: BodySizes;
  readonly club: ClubSizes;
  readonly ball: {
    readonly x: number;
    readonly z: number;
    readonly radius: number;
    readonly speed: number;
    readonly launch: number;
  };
  /** Ankle to ankle, along the target line; the origin lies midway, on the ground. */
  readonly stanceWidth: number;
  /** Incline of the plane that `armAngle` is counted in, degrees from the ground. */
  readonly armPlane: number;
  readonly picture: { readonly width: number; readonly height: number };
  /** For a right-handed player; a left-hander is seen by the mirrored cameras. */
  readonly cameras: Readonly<Record<View, CameraPlace>>;
  readonly framesPerSecond: number;
  readonly frameCount: number;
  /** Key instants as frame numbers (may lie between frames), rising; the first begins the motion, the last ends it. */
  readonly keyFrames: readonly number[];
  /** Places of address and of impact in `keyFrames`: there the arm is set so that the club stands at the ball. */
  readonly addressKey: number;
  readonly impactKey: number;
  readonly motion: Motion;
  /** Things that stand still in the picture, in metres. */
  readonly surroundings: {
    /** One upright post a view; the edge of its face is the plumb. */
    readonly posts: Readonly<Record<View, { readonly foot: Vector; readonly height: number }>>;
    /** One metre stick a view, flat on the ground, lying across that view; ends in the world. */
    readonly knownLengths: Readonly<Record<View, { readonly a: Vector; readonly b: Vector }>>;
    readonly groundMarks: readonly Vector[];
  };
}

/** What was planned to differ between the lessons, for people and tests; degrees and metres. */
export type CheckpointFrames = Readonly<Record<Checkpoint, number>>;
