import { rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { BodyPointId } from '../model/body-points.ts';
import { BODY_POINTS } from '../model/body-points.ts';
import { AppError } from '../model/errors.ts';
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
import { framePainter } from './frame-painter.ts';
import { headSeen } from './head-seen.ts';
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
  const made: string[] = [];
  let before = 0;
  try {
    for (const { clip, scenario } of wanted) {
      const done = before;
      await encodeOne(order, clip, scenario, (frames) => order.onProgress?.(done + frames, total));
      made.push(clip.path);
      // `wx`: a truth file of an earlier run is never overwritten.
      await writeFile(clip.truthPath, truthJson(clip, scenario), { flag: 'wx' });
      made.push(clip.truthPath);
      before += scenario.frameCount;
    }
  } catch (error) {
    for (const path of made) await rm(path, { force: true });
    throw error;
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
    frames: paintedFrames(order.signal, clip, scenario),
    sound: swingSound(frameCount / framesPerSecond, impactSeconds(scenario)),
    out: clip.path,
    captureRateTag: framesPerSecond,
    effort: 'quick',
    onProgress,
    ...(order.signal === undefined ? {} : { signal: order.signal }),
  });
}

async function* paintedFrames(
  signal: AbortSignal | undefined,
  clip: DemoClip,
  scenario: Scenario,
): AsyncGenerator<Uint8Array> {
  const paint = framePainter(scenario, clip.view, CLOTHES[clip.lesson]);
  for (let frame = 0; frame < scenario.frameCount; frame += 1) {
    if (signal?.aborted === true) throw new AppError('cancelled', 'Making the demo was cancelled.');
    yield paint(frame);
    // Painting is pure arithmetic: without this turn of the loop nothing else in the program would run meanwhile.
    await new Promise((resolve) => {
      setImmediate(resolve);
    });
  }
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
