import { headSeen } from '../../core/demo/head-seen.ts';
import { uprightBox } from '../../core/geometry/box.ts';
import type { UprightBox } from '../../core/geometry/box.ts';
import { fitLine } from '../../core/geometry/fit-line.ts';
import type { SwingPoint } from '../../core/geometry/point.ts';
import { fitUncertainArc } from '../../core/measure/arc/arc-of-clip.ts';
import { placesOf } from '../../core/measure/arc/clubhead-path.ts';
import type { PathPart } from '../../core/measure/arc/clubhead-path.ts';
import { CATALOGUE } from '../../core/measure/catalogue/catalogue.ts';
import type { PlacedEntry, Places } from '../../core/measure/catalogue/entry.ts';
import type { BodyPointId } from '../../core/model/body-points.ts';
import type { PathShape } from '../../core/model/mark.ts';
import type { ReadingKey } from '../../core/model/reading.ts';
import type { Checkpoint, View } from '../../core/model/words.ts';
import { checkpointFrames } from '../../core/scene/checkpoint-frames.ts';
import type { CheckpointFrames, Scenario } from '../../core/scene/scenario.ts';
import { pointsInWorld, poseOfFrame } from '../../core/scene/truth.ts';
import { degrees, distance, vector } from '../../core/scene/vector.ts';
import type { Vector } from '../../core/scene/vector.ts';
import { trueOnGround } from './ground-truth.ts';
import { HEAD_BOX, pathIndices } from './off-scene.ts';

/**
 * What readings truly are in a scene of a right-hander: degrees, cm, m/s. Not from any picture: from the body in space, looked
 * at along the view's own line from infinitely far off, where depth, a camera's place and its lens do nothing. Of a speed: the
 * club's own, in space. Of the head's outline: the painted figure's. null for readings of times, which have tests of their own.
 */
export function trueReadings(scenario: Scenario): (key: ReadingKey) => number | null {
  const frames = checkpointFrames(scenario);
  const known = new Map<string, number | null>();
  return (key) => {
    const name = `${key.id} ${key.aspect} ${key.view} ${key.checkpoint}`;
    if (!known.has(name)) known.set(name, trueReading(scenario, frames, key));
    return known.get(name) ?? null;
  };
}

const CM = 100;

function trueReading(scenario: Scenario, frames: CheckpointFrames, key: ReadingKey): number | null {
  const entry = CATALOGUE[key.id];
  if ('spans' in entry) return null;
  if (entry.quantity === 'speed') return trueSpeed(scenario, frames);
  if (entry.quantity === 'arc') return trueArc(scenario, frames, key);
  if (entry.ground) return trueOnGround(scenario, frames, key.id, key.checkpoint);
  const at = (checkpoint: Checkpoint) => entry.compute(placesFrom(scenario, frames, key.view, checkpoint));
  const [here, before] = [at(key.checkpoint), key.aspect === 'change' ? at('address') : 0];
  if (here === null || before === null) return null;
  return inUnit(entry, here - before);
}

function inUnit({ quantity }: PlacedEntry, value: number): number {
  return quantity === 'angle' ? degrees(value) : value;
}

function placesFrom(scenario: Scenario, frames: CheckpointFrames, view: View, checkpoint: Checkpoint): Places {
  const from = (index: number) => {
    const world = pointsInWorld(poseOfFrame(scenario, index));
    return (point: BodyPointId): SwingPoint => seenAlong(view, world[point]);
  };
  const none = (): never => {
    throw new Error('true readings: no picture is asked');
  };
  return {
    here: from(frames[checkpoint]),
    address: from(frames.address),
    pictureOf: none,
    groundHere: none,
    groundAddress: none,
    headBox: () => {
      const { from: camera, focal } = scenario.cameras[view];
      const head = pointsInWorld(poseOfFrame(scenario, frames.address))['head-centre'];
      const perPixel = (CM * (camera.z - head.z)) / focal;
      return {
        middle: seenAlong(view, head),
        ...{ halfAlong: perPixel * HEAD_BOX.across, halfUp: perPixel * HEAD_BOX.up },
      };
    },
    head: () => headFromFarOff(scenario, view, frames[checkpoint]),
  };
}

/** Times as far off as the scenario's camera. */
const FAR = 1e4;

/** Head and cap as they are painted, face on, cm. */
function headFromFarOff(scenario: Scenario, view: View, index: number): UprightBox {
  const { to, focal, from } = scenario.cameras[view];
  const far = FAR * (from.z - to.z);
  const camera = { to, from: vector(to.x, to.y, to.z + far), focal: FAR * focal };
  const seen = headSeen({ ...scenario, cameras: { ...scenario.cameras, [view]: camera } }, view, index);
  const perPixel = (CM * far) / camera.focal;
  const { width, height } = scenario.picture;
  const edges = {
    ...{ left: CM * to.x + perPixel * (seen.left - width / 2), right: CM * to.x + perPixel * (seen.right - width / 2) },
    ...{
      top: perPixel * (seen.top - height / 2) - CM * to.y,
      bottom: perPixel * (seen.bottom - height / 2) - CM * to.y,
    },
  };
  return uprightBox(edges, ({ x, y }) => ({ along: x, up: -y }));
}

function seenAlong(view: View, { x, y, z }: Vector): SwingPoint {
  return { along: CM * (view === 'face-on' ? x : z), up: CM * y };
}

function trueArc(scenario: Scenario, frames: CheckpointFrames, key: ReadingKey): number | null {
  const entry = CATALOGUE[key.id];
  if (entry.quantity !== 'arc') return null;
  const head = (index: number) => pointsInWorld(poseOfFrame(scenario, index)).clubhead;
  const path: PathShape = {
    id: 'path',
    kind: 'path',
    subject: 'clubhead',
    places: pathIndices(frames).map((index) => ({ x: 0, y: 0, pts: index })),
  };
  const named = Object.fromEntries(
    Object.entries(frames).map(([name, index]) => [name, { index, pts: index, ticks: 1 }]),
  );
  const arcOf = (part: PathPart) => {
    const indices = placesOf(path, part, { checkpoints: named }).map(({ pts }) => pts);
    const impact = placesOf(path, 'impact', { checkpoints: named }).map(({ pts }) => head(pts));
    const incline = Math.abs(fitLine(impact.map(({ y, z }) => ({ x: z, y })))?.direction ?? Number.NaN);
    const places = indices.map((index) => seenAlong('face-on', head(index)));
    const given = {
      places: indices.map((pts) => ({ x: 0, y: 0, pts })),
      upright: () => places,
      sigma: 1e-6,
      freedom: Infinity,
      loose: [],
    };
    const arc = fitUncertainArc(part, given, 0, incline);
    if (typeof arc === 'string') throw new Error(`true arc: ${arc}`);
    return arc.fit;
  };
  return entry.compute({ arc: arcOf, ball: () => seenAlong('face-on', poseOfFrame(scenario, frames.impact).ball) });
}

function trueSpeed(scenario: Scenario, frames: CheckpointFrames): number {
  const [before, after] = [-0.5, 0.5].map((by) => pointsInWorld(poseOfFrame(scenario, frames.impact + by)).clubhead);
  if (before === undefined || after === undefined) return Number.NaN;
  return distance(before, after) * scenario.framesPerSecond;
}
