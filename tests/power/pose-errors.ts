import { parseArgs } from 'node:util';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { CLOTHES } from '../../core/demo/clothes.ts';
import type { Clothes } from '../../core/demo/clothes.ts';
import { demoScenario } from '../../core/demo/demo-scenario.ts';
import { framePainter } from '../../core/demo/frame-painter.ts';
import { sideOf } from '../../core/geometry/point.ts';
import type { BodyPointId } from '../../core/model/body-points.ts';
import { VIEWS } from '../../core/model/words.ts';
import type { View } from '../../core/model/words.ts';
import { loadPoseModel } from '../../core/pose/pose-model.ts';
import type { PoseModel, RgbaPicture } from '../../core/pose/pose-model.ts';
import { bodyPointsOf, middleLandmarks, squareRound } from '../../core/propose/pose.ts';
import type { Landmark, PoseSquare } from '../../core/propose/pose.ts';
import { checkpointFrames } from '../../core/scene/checkpoint-frames.ts';
import type { Channel, CheckpointFrames, Scenario } from '../../core/scene/scenario.ts';
import { truthOf } from '../../core/scene/truth.ts';
import { seeded } from '../support/seeded.ts';
import type { PoseFrame } from '../support/drawn-poses.ts';

/**
 * `npm run poses`: how far the pose model lies from the truth on invented players, at address, top and impact in both views. They
 * differ in body, posture, tempo of turn, clothes, hand, camera, grain and exposure. Some 30 s a player. Written to
 * tests/support/drawn-poses.jsonl, on which drawn coaches are tried (tests/core/measure/proposed). --from, --to: seeds of the players.
 */
const CHECKED = ['address', 'top', 'impact'] as const;
/** Lines of the picture; the model sees 256 of the square round the body. */
const [WIDTH, HEIGHT] = [960, 720];

const { values } = parseArgs({
  options: { from: { type: 'string', default: '100' }, to: { type: 'string', default: '140' } },
});

/** By how much a player's habit differs, standard deviation in the channel's unit; turns differ by a tenth of themselves. */
const HABITS = {
  ...{ leadKnee: 4, trailKnee: 4, hipX: 0.015, hipZ: 0.015, neckX: 0.012, neckZ: 0.012, headLean: 4, headSide: 3 },
  ...{ axisLean: 2, axisSide: 2, leadFlare: 8, trailFlare: 6, leadElbow: 10, trailElbow: 8 },
} as const satisfies Partial<Record<Channel, number>>;
const SIZES = ['thigh', 'shank', 'upperArm', 'forearm', 'shoulderWidth', 'hipWidth', 'spine', 'neck'] as const;

interface Player {
  readonly scene: Scenario;
  readonly clothes: Clothes;
  /** Seconds that the shutter is open. */
  readonly exposure: number;
  /** Standard deviation of the grain, grey values. */
  readonly grain: number;
  readonly random: () => number;
}

function drawPlayer(seed: number): Player {
  const random = seeded(9000 + seed);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const between = (least: number, most: number): number => least + (most - least) * random();
  const pick = <Item>(items: readonly Item[]): Item => items[Math.floor(random() * items.length)] as Item;
  const hand = pick(['right', 'left'] as const);
  const [then, now] = [demoScenario('then', hand), demoScenario('now', hand)];
  const part = random();
  const motion: Record<Channel, readonly number[]> = { ...then.motion };
  for (const channel of Object.keys(then.motion) as Channel[])
    motion[channel] = then.motion[channel].map((each, at) => each * (1 - part) + (now.motion[channel][at] ?? 0) * part);
  for (const [channel, deviation] of Object.entries(HABITS) as [Channel, number][]) {
    const off = deviation * normal();
    motion[channel] = motion[channel].map((each) => each + off);
  }
  for (const channel of ['hipTurn', 'shoulderTurn'] as const) {
    const times = 1 + 0.1 * normal();
    motion[channel] = motion[channel].map((each) => each * times);
  }
  const body = { ...then.body };
  for (const size of SIZES) Object.assign(body, { [size]: body[size] * (1 + 0.03 * normal()) });
  const zoom = between(0.75, 1.05) * (HEIGHT / then.picture.height);
  const cameras = { ...then.cameras };
  for (const view of VIEWS) {
    const camera = cameras[view];
    const [x, y, z] = [between(-0.3, 0.3), between(-0.15, 0.3), between(-0.3, 0.3)];
    const from = { x: camera.from.x + x, y: camera.from.y + y, z: camera.from.z + z };
    cameras[view] = { ...camera, focal: camera.focal * zoom, from };
  }
  const grey = (): number => between(20, 240);
  const colour = () => ({ red: grey(), green: grey(), blue: grey(), shine: 0 });
  const clothes =
    random() < 0.3
      ? pick([CLOTHES.then, CLOTHES.now])
      : (Object.fromEntries(Object.keys(CLOTHES.then).map((piece) => [piece, colour()])) as unknown as Clothes);
  const scene: Scenario = { ...then, motion, body, cameras, picture: { width: WIDTH, height: HEIGHT } };
  return { scene, clothes, exposure: pick([0, 1 / 500, 1 / 200]), grain: between(1, 4), random };
}

/** A frame as a camera sees it: two instants of the exposure laid over each other, with grain. */
function filmed(
  { scene, exposure, grain, random }: Player,
  paint: (frame: number) => Uint8Array,
  frame: number,
): RgbaPicture {
  const reach = exposure * scene.framesPerSecond * 0.8;
  const seen = exposure === 0 ? [paint(frame)] : [-0.5, 0.5].map((part) => paint(frame + part * reach));
  const data = new Uint8Array(4 * WIDTH * HEIGHT);
  for (let at = 0; at < data.length; at += 1) {
    const value = seen.reduce((sum, each) => sum + (each[at] ?? 0), 0) / seen.length;
    // Not of what says how opaque it is. The sum of two even draws: a triangle, near enough to grain.
    const noise = at % 4 === 3 ? 0 : grain * 2.45 * (random() + random() - 1);
    data[at] = Math.max(0, Math.min(255, value + noise));
  }
  return { width: WIDTH, height: HEIGHT, data };
}

/** As the program looks, but beginning where the body is: from all of the picture it comes to the same square. */
async function look(model: PoseModel, pictures: readonly RgbaPicture[], truth: ReturnType<typeof truthOf>) {
  const { clubhead: _clubhead, ball: _ball, 'grip-end': _gripEnd, ...body } = truth;
  const places = Object.values(body);
  const [low, high] = [Math.min(...places.map(({ y }) => y)), Math.max(...places.map(({ y }) => y))];
  const x = places.reduce((sum, each) => sum + each.x, 0) / places.length;
  let square: PoseSquare = { centre: { x, y: (low + high) / 2 }, side: 1.5 * (high - low), turn: 0 };
  const [, middle] = pictures;
  for (let looks = 0; looks < 2 && middle !== undefined; looks += 1) {
    const { landmarks, sure } = await model.look(middle, square);
    const closer = squareRound(landmarks);
    if (sure < 0.5 || closer === null) return null;
    square = closer;
  }
  const looks: (readonly Landmark[])[] = [];
  for (const picture of pictures) {
    const { landmarks, sure } = await model.look(picture, square);
    if (sure >= 0.5) looks.push(landmarks);
  }
  return looks.length === 0 ? null : { square, landmarks: middleLandmarks(looks) };
}

/** null: arms and posture as drawn leave the ball out of reach. */
function framesOf(scene: Scenario): CheckpointFrames | null {
  try {
    return checkpointFrames(scene);
  } catch (cause) {
    if (cause instanceof Error && cause.message.includes('out of reach')) return null;
    throw cause;
  }
}

const model = await loadPoseModel();
const frames: PoseFrame[] = [];
for (let seed = Number(values.from); seed < Number(values.to); seed += 1) {
  const player = drawPlayer(seed);
  const { scene, clothes } = player;
  const named = framesOf(scene);
  if (named === null) {
    console.log(`player ${String(seed)} does not reach the ball and is left out`);
    continue;
  }
  for (const view of VIEWS as readonly View[]) {
    const paint = framePainter(scene, view, clothes);
    for (const checkpoint of CHECKED) {
      const frame = named[checkpoint];
      const pictures = [frame - 1, frame, frame + 1].map((each) => filmed(player, paint, each));
      const truth = truthOf(scene, view, frame);
      const pose = await look(model, pictures, truth);
      if (pose === null) continue;
      const { handedness } = scene;
      const size = pose.square.side;
      const seen = bodyPointsOf(pose.landmarks, pose.square, { view, handedness });
      const points = Object.entries(seen).map(([point, { x, y, guess }]) => {
        const { x: trueX, y: trueY } = truth[point as BodyPointId];
        const parts = [(sideOf(handedness) * (trueX - x)) / size, (trueY - y) / size, guess / size];
        return [point, parts.map((each) => Math.round(10_000 * each) / 10)];
      });
      frames.push({
        player: seed,
        view,
        checkpoint,
        handedness,
        size: Math.round(size),
        points: Object.fromEntries(points),
      });
    }
  }
  console.log(`player ${String(seed)}: ${String(frames.length)} frames`);
}
const text = frames.map((each) => `${JSON.stringify(each)}\n`).join('');
writeFileSync(join(import.meta.dirname, '..', 'support', 'drawn-poses.jsonl'), text);
// What runs the model has a thread pool that would keep the process.
process.exit(0);
