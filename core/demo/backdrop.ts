import { createCanvas } from '@napi-rs/canvas';
import type { SKRSContext2D } from '@napi-rs/canvas';
import type { View } from '../model/words.ts';
import { project } from '../scene/camera.ts';
import type { Camera } from '../scene/camera.ts';
import type { Scenario } from '../scene/scenario.ts';
import { POST_HALF } from '../scene/still-marks.ts';
import { cameraOf } from '../scene/truth.ts';
import { mirror, vector } from '../scene/vector.ts';
import type { Vector } from '../scene/vector.ts';

/** Everything that stands still behind the player, as RGBA bytes: turf, mat, marks, sticks, and the bay or the range. */
export function backdropOf(scenario: Scenario, view: View): Uint8Array {
  const { width, height } = scenario.picture;
  const canvas = createCanvas(width, height);
  const context = canvas.getContext('2d');
  const stage = new Stage(context, cameraOf(scenario, view), scenario);
  if (view === 'face-on') paintWall(stage);
  else paintRange(stage);
  paintFloor(stage);
  paintMat(stage);
  for (const stick of Object.values(scenario.surroundings.knownLengths)) paintStick(stage, stick.a, stick.b);
  for (const mark of scenario.surroundings.groundMarks) paintMark(stage, mark);
  paintPost(stage, view);
  const { data } = context.getImageData(0, 0, width, height);
  return new Uint8Array(data.buffer, data.byteOffset, data.byteLength);
}

/** Draws polygons of the world; a left-hander's bay is the mirrored one. */
class Stage {
  readonly context: SKRSContext2D;
  readonly camera: Camera;
  readonly scenario: Scenario;

  constructor(context: SKRSContext2D, camera: Camera, scenario: Scenario) {
    this.context = context;
    this.camera = camera;
    this.scenario = scenario;
  }

  get width(): number {
    return this.scenario.picture.width;
  }

  get height(): number {
    return this.scenario.picture.height;
  }

  polygon(points: readonly Vector[], fill: string | CanvasGradientLike): void {
    const { context } = this;
    context.beginPath();
    for (const point of points) {
      const place = project(this.camera, this.scenario.handedness === 'left' ? mirror(point) : point);
      if (place !== null) context.lineTo(place.x, place.y);
    }
    context.closePath();
    context.fillStyle = fill;
    context.fill();
  }

  /** Height in the picture of the ground at a depth, or of a height above it. */
  rowOf(point: Vector): number {
    return project(this.camera, this.scenario.handedness === 'left' ? mirror(point) : point)?.y ?? this.height / 2;
  }
}

type CanvasGradientLike = ReturnType<SKRSContext2D['createLinearGradient']>;

/** Same numbers every time, for speckle; a linear congruential generator (Numerical Recipes' constants). */
function speckles(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

function gradient(stage: Stage, from: number, to: number, colours: readonly string[]): CanvasGradientLike {
  const made = stage.context.createLinearGradient(0, from, 0, to);
  colours.forEach((colour, at) => {
    made.addColorStop(at / (colours.length - 1), colour);
  });
  return made;
}

const WALL_BEHIND = -1.9;

function paintWall(stage: Stage): void {
  const { context, width } = stage;
  const foot = stage.rowOf(vector(0, 0, WALL_BEHIND));
  context.fillStyle = gradient(stage, 0, foot, ['#7d8a92', '#8d99a0', '#7a868d']);
  context.fillRect(0, 0, width, foot);
  for (let x = -3.2; x <= 3.2; x += 0.8) {
    stage.polygon(board(x, x + 0.012, 0, 3, WALL_BEHIND), '#6b767d');
    stage.polygon(board(x + 0.012, x + 0.02, 0, 3, WALL_BEHIND), '#98a4ab');
  }
  stage.polygon(board(-4, 4, 0, 0.14, WALL_BEHIND), '#59636a');
  stage.polygon(board(-4, 4, 0.14, 0.155, WALL_BEHIND), '#a2adb3');
}

function board(left: number, right: number, low: number, high: number, z: number): readonly Vector[] {
  return [vector(left, low, z), vector(right, low, z), vector(right, high, z), vector(left, high, z)];
}

function paintRange(stage: Stage): void {
  const { context, width, height } = stage;
  const horizon = height / 2;
  context.fillStyle = gradient(stage, 0, horizon, ['#9dbbd4', '#c3d6e2', '#dfe7e6']);
  context.fillRect(0, 0, width, horizon);
  const next = speckles(7);
  for (let layer = 0; layer < 2; layer += 1) {
    context.fillStyle = layer === 0 ? '#8ba394' : '#5f7d5d';
    context.beginPath();
    context.moveTo(0, horizon + 4);
    for (let x = 0; x <= width; x += 6)
      context.lineTo(x, horizon - 26 + layer * 14 - 14 * Math.sin(x / 170 + layer * 2) - 10 * next());
    context.lineTo(width, horizon + 4);
    context.fill();
  }
}

function paintFloor(stage: Stage): void {
  const { context, width, height } = stage;
  const indoors = stage.camera.turn[2].z < -0.5;
  const top = indoors ? stage.rowOf(vector(0, 0, WALL_BEHIND)) : height / 2;
  context.fillStyle = indoors
    ? gradient(stage, top, height, ['#4f7a45', '#5d8a50', '#588449'])
    : gradient(stage, top, height, ['#9db57e', '#7ba35f', '#669351', '#5d8a4c', '#558146']);
  context.fillRect(0, top, width, height - top);
  const next = speckles(3);
  for (let blade = 0; blade < 9000; blade += 1) {
    const share = Math.sqrt(next());
    const y = top + (height - top) * share;
    context.fillStyle = next() < 0.5 ? 'rgba(30,60,20,0.16)' : 'rgba(190,220,150,0.13)';
    context.fillRect(next() * width, y, 1 + 2 * share, 1 + 3 * share);
  }
}

function flat(left: number, right: number, near: number, far: number, y = 0): readonly Vector[] {
  return [vector(left, y, near), vector(right, y, near), vector(right, y, far), vector(left, y, far)];
}

function paintMat(stage: Stage): void {
  stage.polygon(flat(-0.95, 1.05, -0.65, 1.25), '#2f4a38');
  stage.polygon(flat(-0.92, 1.02, -0.62, 1.22), '#56835f');
  stage.polygon(flat(-0.92, 1.02, 0.55, 1.05), '#5f9067');
  stage.polygon(flat(-0.92, 1.02, 0.545, 0.555), '#4a7453');
  stage.polygon(flat(-0.92, 1.02, 1.045, 1.055), '#4a7453');
}

/** A metre stick in ten bands. */
function paintStick(stage: Stage, a: Vector, b: Vector): void {
  const along = { x: b.x - a.x, z: b.z - a.z };
  const aside = {
    x: (-along.z * 0.011) / Math.hypot(along.x, along.z),
    z: (along.x * 0.011) / Math.hypot(along.x, along.z),
  };
  for (let band = 0; band < 10; band += 1) {
    const from = band / 10;
    const to = (band + 1) / 10;
    const corner = (share: number, side: number): Vector =>
      vector(a.x + along.x * share + aside.x * side, 0, a.z + along.z * share + aside.z * side);
    stage.polygon(
      [corner(from, 1), corner(to, 1), corner(to, -1), corner(from, -1)],
      band % 2 === 0 ? '#f2f2ee' : '#c2362f',
    );
  }
}

/** A white disc with a dark middle. */
function paintMark(stage: Stage, mark: Vector): void {
  for (const [radius, colour] of [
    [0.04, '#f4f4f0'],
    [0.012, '#20242a'],
  ] as const) {
    const circle = Array.from({ length: 24 }, (_, at) => {
      const turn = (at * Math.PI) / 12;
      return vector(mark.x + radius * Math.cos(turn), 0, mark.z + radius * Math.sin(turn));
    });
    stage.polygon(circle, colour);
  }
}

/** A square post; the edge of its near face is the plumb. */
function paintPost(stage: Stage, view: View): void {
  const { foot, height } = stage.scenario.surroundings.posts[view];
  stage.polygon(flat(foot.x - 0.12, foot.x + 0.12, foot.z - 0.12, foot.z + 0.12), 'rgba(20,30,20,0.35)');
  const face = (left: number, right: number, near: number, far: number): readonly Vector[] => [
    vector(foot.x + left, 0, foot.z + near),
    vector(foot.x + right, 0, foot.z + far),
    vector(foot.x + right, height, foot.z + far),
    vector(foot.x + left, height, foot.z + near),
  ];
  stage.polygon(face(-POST_HALF, -POST_HALF, -POST_HALF, POST_HALF), '#e7dfcf');
  stage.polygon(face(-POST_HALF, POST_HALF, POST_HALF, POST_HALF), '#d8cdb8');
}
