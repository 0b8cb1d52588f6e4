import { CLOTHES, type Clothes } from '../../core/demo/clothes.ts';
import { demoScenario, DEMO_LESSONS } from '../../core/demo/demo-scenario.ts';
import { framePainter } from '../../core/demo/frame-painter.ts';
import { VIEWS, type View } from '../../core/model/words.ts';
import type { LumaClip } from '../../core/propose/luma.ts';
import { checkpointFrames } from '../../core/scene/checkpoint-frames.ts';
import type { CheckpointFrames, Scenario } from '../../core/scene/scenario.ts';

/** Frames a second that phones film at. */
const RATES = [30, 60, 120, 240] as const;
const LINES = 400;

/** One swing as a camera sees it, with the truth of its frames. */
export interface VariedSwing {
  readonly view: View;
  readonly framesPerSecond: number;
  readonly truth: CheckpointFrames;
  readonly clip: LumaClip;
}

/** A swing that is not filmed yet: what happens, and through which camera. */
export interface VariedScene {
  readonly view: View;
  readonly scenario: Scenario;
  readonly clothes: Clothes;
  /** Standard deviation of the camera's grain, grey values; part of the light that flickers. */
  readonly grain: number;
  readonly flicker: number;
}

/**
 * A swing that no program knows: another player's tempo, hand and posture, another camera's rate, place and noise, light
 * that flickers. The ball is struck, or, `practice`, is not there.
 * @param random 0 to 1
 */
export function variedScene(random: () => number, { practice = false } = {}): VariedScene {
  const between = (least: number, most: number): number => least + (most - least) * random();
  const pick = <Item>(items: readonly Item[]): Item => {
    const item = items[Math.floor(random() * items.length)];
    if (item === undefined) throw new Error('nothing to pick from');
    return item;
  };
  const view = pick(VIEWS);
  const lesson = pick(DEMO_LESSONS);
  const framesPerSecond = pick(RATES);
  const scene = demoScenario(lesson, pick(['right', 'left'] as const));
  const scale = (framesPerSecond / scene.framesPerSecond) * between(0.8, 1.3);
  const lead = between(0.2, 0.8) * framesPerSecond;
  const [first = 0] = scene.keyFrames;
  const keyFrames = scene.keyFrames.map((key) => lead + (key - first) * scale);
  const rest = (scene.frameCount - (scene.keyFrames.at(-1) ?? 0)) * scale;
  const small = LINES / scene.picture.height;
  const camera = scene.cameras[view];
  const off = { x: between(-0.3, 0.3), y: between(-0.15, 0.25), z: between(-0.3, 0.3) };
  const scenario: Scenario = {
    ...scene,
    framesPerSecond,
    keyFrames,
    frameCount: Math.round((keyFrames.at(-1) ?? 0) + rest),
    picture: { width: 2 * Math.round((scene.picture.width * small) / 2), height: LINES },
    cameras: {
      ...scene.cameras,
      [view]: {
        ...camera,
        focal: camera.focal * small * between(0.85, 1.1),
        from: { x: camera.from.x + off.x, y: camera.from.y + off.y, z: camera.from.z + off.z },
      },
    },
    ball: practice ? { ...scene.ball, radius: 1e-6 } : scene.ball,
  };
  return { view, scenario, clothes: CLOTHES[lesson], grain: between(1, 4), flicker: between(0, 0.01) };
}

/** The swing of `variedScene`, filmed; the grain comes from the same draws. */
export function variedSwing(random: () => number, how: { readonly practice?: boolean } = {}): VariedSwing {
  const { view, scenario, clothes, grain, flicker } = variedScene(random, how);
  const paint = framePainter(scenario, view, clothes);
  const { width, height } = scenario.picture;
  const pictures = Array.from({ length: scenario.frameCount }, (_, frame) =>
    seen(paint(frame), { grain, light: 1 + flicker * Math.sin(1.7 * frame) }, random),
  );
  return {
    ...{ view, framesPerSecond: scenario.framesPerSecond },
    truth: checkpointFrames(scenario),
    clip: {
      ...{ width, height, from: 0, to: pictures.length },
      at(frame) {
        const picture = pictures[frame];
        if (picture === undefined) throw new Error(`no frame ${String(frame)}`);
        return picture;
      },
    },
  };
}

/** RGBA as a camera's brightness, BT.709, with its grain. */
function seen(
  rgba: Uint8Array,
  { grain, light }: { readonly grain: number; readonly light: number },
  random: () => number,
): Uint8Array {
  const luma = new Uint8Array(rgba.length / 4);
  for (let at = 0; at < luma.length; at += 1) {
    const [red = 0, green = 0, blue = 0] = [rgba[4 * at], rgba[4 * at + 1], rgba[4 * at + 2]];
    // The sum of two even draws: a triangle, near enough to grain.
    const noise = grain * 2.45 * (random() + random() - 1);
    luma[at] = Math.min(255, Math.max(0, light * (0.2126 * red + 0.7152 * green + 0.0722 * blue) + noise));
  }
  return luma;
}
