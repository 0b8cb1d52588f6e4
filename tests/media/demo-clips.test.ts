import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { demoScenario } from '../../core/demo/demo-scenario.ts';
import { makeDemoClips } from '../../core/demo/make-clips.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import type { Scenario } from '../../core/scene/scenario.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

/** The same swing five times as fast, so that a clip of it is short. */
function quickScenario(): Scenario {
  const scenario = demoScenario('now');
  return {
    ...scenario,
    framesPerSecond: 24,
    frameCount: 58,
    keyFrames: scenario.keyFrames.map((frame) => frame / 5),
  };
}

test('a clip read back has every frame that was painted, sound, and its truth beside it', async () => {
  const folder = temporaryFolder();
  const ffmpeg = await findFfmpeg();
  const progress: number[] = [];
  const [clip] = await makeDemoClips({
    folder,
    ffmpeg,
    lessons: ['now'],
    views: ['face-on'],
    scenarioOf: quickScenario,
    onProgress: (done, total) => {
      expect(total).toBe(58);
      progress.push(done);
    },
  });
  if (clip === undefined) throw new Error('no clip');
  expect(progress.at(-1)).toBe(58);
  const index = await readClipIndex(clip.path, { ffmpeg });
  expect(index.frames.length).toBe(58);
  expect({ width: index.width, height: index.height, sound: index.sound }).toEqual({
    width: 1440,
    height: 1080,
    sound: true,
  });
  expect(index.captureRate).toEqual({ framesPerSecond: { num: 24, den: 1 }, confirmed: false });
  const truth: unknown = JSON.parse(readFileSync(clip.truthPath, 'utf8'));
  expect(truth).toMatchObject({ checkpoints: clip.checkpoints, headBox: clip.headBox });
  expect(truth).toHaveProperty('frames.length', 58);
});

test.each([1, 2])('cancelled half-way, %i at once, it leaves nothing behind', async (atOnce) => {
  const folder = temporaryFolder();
  const stop = new AbortController();
  const making = makeDemoClips({
    folder,
    ffmpeg: await findFfmpeg(),
    lessons: ['now'],
    scenarioOf: quickScenario,
    signal: stop.signal,
    atOnce,
    onProgress: (done) => {
      if (done === 70) stop.abort();
    },
  });
  await expect(making).rejects.toMatchObject({ code: 'cancelled' });
  expect(readdirSync(folder)).toEqual([]);
});

test.each([1, 2])('a clip that is there already is kept, and the rest is not made, %i at once', async (atOnce) => {
  const folder = temporaryFolder();
  const path = join(folder, 'now-face-on.mp4');
  writeFileSync(path, 'mine');
  const order = { folder, ffmpeg: await findFfmpeg(), lessons: ['now'], views: ['face-on', 'down-the-line'] } as const;
  const making = makeDemoClips({ ...order, scenarioOf: quickScenario, atOnce });
  await expect(making).rejects.toMatchObject({ code: 'file-exists' });
  expect(readFileSync(path, 'utf8')).toBe('mine');
  expect(readdirSync(folder)).toEqual(['now-face-on.mp4']);
});
