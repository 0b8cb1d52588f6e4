import { rm, writeFile } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import type { BodyPointId } from '../model/body-points.ts';
import { BODY_POINTS } from '../model/body-points.ts';
import type { PicturePoint } from '../model/mark.ts';
import { CHECKPOINTS, VIEWS } from '../model/words.ts';
import type { Checkpoint, View } from '../model/words.ts';
import { checkpointFrames } from '../scene/checkpoint-frames.ts';
import type { Scenario } from '../scene/scenario.ts';
import { groundMarksOf, plumbOf, knownLengthOf } from '../scene/still-marks.ts';
import { impactSeconds } from '../scene/swing-motion.ts';
import { headBoxAt, pointsInWorld, poseOfFrame, truthOf } from '../scene/truth.ts';
import type { Edges } from '../geometry/box.ts';
import { encodeClip } from '../video/process/encode-clip.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { CLOTHES } from './clothes.ts';
import { DEMO_LESSONS, demoScenario } from './demo-scenario.ts';
import type { DemoLesson } from './demo-scenario.ts';
import { headSeen } from './head-seen.ts';
import { paintedFrames } from './paint-thread.ts';
import { swingSound } from './swing-sound.ts';

type Points = Readonly<Record<BodyPointId, PicturePoint>>;

/** One clip that was made, with the truth of all that can be marked on it, in picture coordinates. */
export interface DemoClip {
  readonly lesson: DemoLesson;
  readonly view: View;
  readonly path: string;
  /** JSON beside the clip: everything below, and every body point of every frame in picture and world. */
  readonly truthPath: string;
  /** Frame of every checkpoint; impact is the last frame with the ball at rest. */
  readonly checkpoints: Readonly<Record<Checkpoint, number>>;
  /** Every body point on a frame, 0 to frameCount - 1. */
  points(frameIndex: number): Points;
  /** Round the head at address. */
  readonly headBox: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  /** Close round head and cap at address. */
  readonly head: Edges;
  /** Two points of a true vertical edge. */
  readonly plumb: readonly [PicturePoint, PicturePoint] | null;
  /** A known length on the ground across the view. */
  readonly knownLength: { readonly ends: readonly [PicturePoint, PicturePoint]; readonly lengthMm: number } | null;
  readonly frameCount: number;
}

export interface DemoOrder {
  /** Existing folder to write to. */
  readonly folder: string;
  readonly ffmpeg: Ffmpeg;
  readonly signal?: AbortSignal;
  /** Frames painted so far, of all frames. */
  readonly onProgress?: (done: number, total: number) => void;
  /** Which lessons and views to make; all of them when left out. */
  readonly lessons?: readonly DemoLesson[];
  readonly views?: readonly View[];
  /** How many clips are made at once, 1 or more; as many as there are cores but one when left out. */
  readonly atOnce?: number;
  /** Makes other swings than the demo's, e.g. a short or a left-handed one. */
  readonly scenarioOf?: (lesson: DemoLesson) => Scenario;
}

/**
 * Paints and encodes the demo clips: two lessons, two views, H.264 at the scene's frame rate with the sound of the strike,
 * and the truth as JSON beside each. When it fails or is cancelled, nothing that it made is left behind.
 *
 * Throws AppError as encodeClip does: `file-exists`, `cancelled`, `disk-full`, `ffmpeg-failed` and others.
 */
export async function makeDemoClips(order: DemoOrder): Promise<DemoClip[]> {
  const wanted = (order.lessons ?? DEMO_LESSONS).flatMap((lesson) => {
    const scenario = (order.scenarioOf ?? demoScenario)(lesson);
    return (order.views ?? VIEWS).map((view) => clipOf(order.folder, lesson, view, scenario));
  });
  const total = wanted.reduce((sum, { scenario }) => sum + scenario.frameCount, 0);
  const frames = wanted.map(() => 0);
  const made: string[] = [];
  const waiting = [...wanted.entries()];
  const failed = new AbortController();
  const signal = order.signal === undefined ? failed.signal : AbortSignal.any([order.signal, failed.signal]);
  const makeNext = async (): Promise<void> => {
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
      const [place, { clip, scenario }] = next;
      await encodeOne({ ...order, signal }, clip, scenario, (count) => {
        frames[place] = count;
        order.onProgress?.(
          frames.reduce((sum, each) => sum + each, 0),
          total,
        );
      });
      made.push(clip.path);
      // `wx`: a truth file of an earlier run is never overwritten.
      await writeFile(clip.truthPath, truthJson(clip, scenario), { flag: 'wx' });
      made.push(clip.truthPath);
    }
  };
  // Each has a thread that paints and an ffmpeg, which has one of its own.
  const atOnce = Math.max(1, Math.min(wanted.length, order.atOnce ?? availableParallelism() - 1));
  const troubles: unknown[] = [];
  const stopAll = (cause: unknown): void => {
    troubles.push(cause);
    waiting.length = 0;
    failed.abort();
  };
  await Promise.all(Array.from({ length: atOnce }, () => makeNext().catch(stopAll)));
  if (troubles.length > 0) {
    for (const path of made) await rm(path, { force: true });
    // The others only tell that they were stopped.
    throw troubles[0];
  }
  return wanted.map(({ clip }) => clip);
}

function clipOf(
  folder: string,
  lesson: DemoLesson,
  view: View,
  scenario: Scenario,
): { readonly clip: DemoClip; readonly scenario: Scenario } {
  const checkpoints = checkpointFrames(scenario);
  const clip: DemoClip = {
    lesson,
    view,
    path: join(folder, `${lesson}-${view}.mp4`),
    truthPath: join(folder, `${lesson}-${view}.truth.json`),
    checkpoints,
    points: (frameIndex) => truthOf(scenario, view, frameIndex),
    headBox: headBoxAt(scenario, view, checkpoints.address),
    head: headSeen(scenario, view, checkpoints.address),
    plumb: plumbOf(scenario, view),
    knownLength: knownLengthOf(scenario, view),
    frameCount: scenario.frameCount,
  };
  return { clip, scenario };
}

async function encodeOne(
  order: DemoOrder,
  clip: DemoClip,
  scenario: Scenario,
  onProgress: (frames: number) => void,
): Promise<void> {
  const { width, height } = scenario.picture;
  const { framesPerSecond, frameCount } = scenario;
  await encodeClip({
    ffmpeg: order.ffmpeg,
    width,
    height,
    rate: { num: framesPerSecond, den: 1 },
    frames: paintedFrames({ scenario, view: clip.view, clothes: CLOTHES[clip.lesson] }, order.signal),
    sound: swingSound(frameCount / framesPerSecond, impactSeconds(scenario)),
    out: clip.path,
    captureRateTag: framesPerSecond,
    effort: 'quick',
    onProgress,
    ...(order.signal === undefined ? {} : { signal: order.signal }),
  });
}

function truthJson(clip: DemoClip, scenario: Scenario): string {
  const frames = Array.from({ length: scenario.frameCount }, (_, index) => {
    const picture = clip.points(index);
    const world = pointsInWorld(poseOfFrame(scenario, index));
    return {
      index,
      seconds: index / scenario.framesPerSecond,
      points: Object.fromEntries(
        BODY_POINTS.map((point) => {
          const { x, y, z } = world[point];
          return [point, { picture: [picture[point].x, picture[point].y], world: [x, y, z] }];
        }),
      ),
    };
  });
  return JSON.stringify({
    about:
      'Truth of an invented scene. Picture: pixels, x right, y down. World: metres, x toward the target of a right-handed player, y up, z from the player toward the ball.',
    lesson: clip.lesson,
    view: clip.view,
    picture: scenario.picture,
    framesPerSecond: scenario.framesPerSecond,
    checkpoints: Object.fromEntries(CHECKPOINTS.map((checkpoint) => [checkpoint, clip.checkpoints[checkpoint]])),
    headBox: clip.headBox,
    head: clip.head,
    plumb: clip.plumb,
    knownLength: clip.knownLength,
    groundMarks: groundMarksOf(scenario, clip.view),
    frames,
  });
}
