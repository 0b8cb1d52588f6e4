import { expect, it } from 'vitest';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { spanLosses } from '../../../core/time/span-losses.ts';

const frame = (pts: number, key = false) => ({ pts, ticks: 10, key });
const CLIP: ClipIndex = {
  ...{ width: 320, height: 180, turn: 90, mirrored: true, pixelAspect: { num: 2, den: 1 }, dynamicRange: 'hlg' },
  ...{ timebase: { num: 1, den: 600 }, variable: true, nominalRate: null, sound: true, damage: [] },
  leftOut: null,
  captureRate: { framesPerSecond: { num: 240, den: 1 }, confirmed: true },
  frames: [frame(0, true), frame(10), frame(25), frame(40, true), frame(50), frame(61)],
};
const KEPT: ClipIndex = {
  ...{ ...CLIP, sound: false, variable: false },
  captureRate: { framesPerSecond: { num: 480, den: 2 }, confirmed: false },
  frames: [frame(1000, true), frame(1010), frame(1021)],
};
const losses = (changed: Partial<ClipIndex>) => spanLosses(CLIP, { first: 3, last: 5 }, { ...KEPT, ...changed });

it('what is left of a clip has lost nothing when its frames, gaps and looks are the same', () => {
  expect(losses({})).toEqual([]);
});

it.each<[string, Partial<ClipIndex>]>([
  ['its number of frames', { frames: KEPT.frames.slice(1) }],
  ['the times of its frames', { frames: [frame(1000, true), frame(1010), frame(1020)] }],
  ['the times of its frames', { timebase: { num: 1, den: 601 } }],
  ['its key pictures', { frames: [frame(1000, true), frame(1010, true), frame(1021)] }],
  ['its size', { height: 181 }],
  ['its turn', { turn: 0 }],
  ['its mirroring', { mirrored: false }],
  ['the shape of its pixels', { pixelAspect: { num: 1, den: 1 } }],
  ['its dynamic range', { dynamicRange: 'sdr' }],
  ['the capture rate that it tells', { captureRate: null }],
])('%s', (loss, changed) => {
  expect(losses(changed)).toEqual([loss]);
});
