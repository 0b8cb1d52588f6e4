import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { readFileSync } from 'node:fs';
import { runInThisContext } from 'node:vm';
import type { Landmark, PoseSquare } from '../propose/pose.ts';
import { LANDMARKS } from '../propose/pose.ts';

/** A picture as the model is given one: 8-bit RGBA, row by row; A is ignored. */
export interface RgbaPicture {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

export interface PoseModel {
  /** The landmarks of the body in a square of a picture, and how sure the model is that there is one, 0 to 1. */
  look(
    picture: RgbaPicture,
    square: PoseSquare,
  ): Promise<{ readonly landmarks: readonly Landmark[]; readonly sure: number }>;
}

/** Samples on each side of what the model sees. */
const SIDE = 256;
/** Numbers that it tells of a landmark: x, y, z, two of how sure it is. */
const FACTS = 5;

/** Not named `require`: the builder puts one of that name in front. */
const packages = createRequire(import.meta.url);

/**
 * Loads the pose model (BlazePose, heavy; its weights in @mediapipe/pose) into this process, which is to be one of its own: the
 * library that runs it (@litertjs/core) is made for a page and leaves globals behind. Nothing is fetched; both packages lie
 * on the disk.
 */
export async function loadPoseModel(): Promise<PoseModel> {
  const folder = join(dirname(packages.resolve('@litertjs/core')), '..', 'wasm');
  standInForPage(folder);
  const { loadLiteRt, loadAndCompile, Tensor } = await import('@litertjs/core');
  await quietly(() => loadLiteRt(`${folder}/`));
  const weights = await readFile(join(dirname(packages.resolve('@mediapipe/pose')), 'pose_landmark_heavy.tflite'));
  const model = await quietly(() => loadAndCompile(new Uint8Array(weights), { accelerator: 'wasm' }));
  return {
    async look(picture, square) {
      const input = Tensor.fromTypedArray(samplesOf(picture, square), [1, SIDE, SIDE, 3]);
      const outputs = await model.run(input);
      try {
        const [places, presence] = outputs;
        if (places === undefined || presence === undefined) throw new Error('the pose model told nothing');
        const facts = (await places.data()) as Float32Array;
        const [sure = 0] = (await presence.data()) as Float32Array;
        return { landmarks: landmarksOf(facts, square), sure };
      } finally {
        input.delete();
        for (const output of outputs) output.delete();
      }
    },
  };
}

/** What a page has and the library asks for: a way to load a script, and the names by which that script finds its file. */
function standInForPage(folder: string): void {
  Object.assign(globalThis, {
    self: globalThis,
    require: packages,
    __filename: join(folder, 'script.js'),
    __dirname: folder,
    importScripts: (path: string) => {
      runInThisContext(readFileSync(path, 'utf8'), { filename: path });
    },
  });
}

/** It tells the console at length of graphics processors that are not there. */
async function quietly<Result>(work: () => Promise<Result>): Promise<Result> {
  const { warn, error, log, info } = console;
  const nothing = (): void => undefined;
  Object.assign(console, { warn: nothing, error: nothing, log: nothing, info: nothing });
  try {
    return await work();
  } finally {
    Object.assign(console, { warn, error, log, info });
  }
}

/** The square's samples, 0 to 1, each the mean of those about it where the square is larger; black beyond the picture. */
function samplesOf({ width, height, data }: RgbaPicture, { centre, side, turn }: PoseSquare): Float32Array {
  const samples = new Float32Array(SIDE * SIDE * 3);
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  /** Samples that are averaged along each side: no detail of a large picture falls between two. */
  const fine = Math.max(1, Math.round(side / SIDE));
  for (let row = 0; row < SIDE; row += 1)
    for (let column = 0; column < SIDE; column += 1) {
      const into = 3 * (row * SIDE + column);
      for (let part = 0; part < fine * fine; part += 1) {
        const u = (column + ((part % fine) + 0.5) / fine) / SIDE - 0.5;
        const v = (row + (Math.floor(part / fine) + 0.5) / fine) / SIDE - 0.5;
        const x = Math.floor(centre.x + side * (u * cos - v * sin));
        const y = Math.floor(centre.y + side * (u * sin + v * cos));
        if (x < 0 || y < 0 || x >= width || y >= height) continue;
        const from = 4 * (y * width + x);
        for (let of = 0; of < 3; of += 1)
          samples[into + of] = (samples[into + of] ?? 0) + (data[from + of] ?? 0) / (255 * fine * fine);
      }
    }
  return samples;
}

function landmarksOf(facts: Float32Array, { centre, side, turn }: PoseSquare): readonly Landmark[] {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return Array.from({ length: LANDMARKS }, (_, place) => {
    const [x = 0, y = 0, , seen = 0] = facts.subarray(FACTS * place, FACTS * (place + 1));
    const [u, v] = [x / SIDE - 0.5, y / SIDE - 0.5];
    return {
      x: centre.x + side * (u * cos - v * sin),
      y: centre.y + side * (u * sin + v * cos),
      seen: 1 / (1 + Math.exp(-seen)),
    };
  });
}
