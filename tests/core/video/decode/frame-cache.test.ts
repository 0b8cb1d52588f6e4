import { expect, it } from 'vitest';
import { FrameCache } from '../../../../core/video/decode/frame-cache.ts';

const [one, other] = [Symbol('one'), Symbol('other')];

it('never holds more than its limit and forgets what was longest unused', () => {
  const cache = new FrameCache(30);
  for (const frame of [0, 1, 2]) cache.put(one, frame, new Uint8Array(10));
  cache.get(one, 0);
  cache.put(one, 3, new Uint8Array(10));
  expect([0, 1, 2, 3].map((frame) => cache.has(one, frame))).toEqual([true, false, true, true]);
  expect(cache.bytes).toBe(30);
});

it('counts a picture that is put twice once', () => {
  const cache = new FrameCache(30);
  cache.put(one, 0, new Uint8Array(10));
  cache.put(one, 0, new Uint8Array(20));
  expect(cache.bytes).toBe(20);
});

it('does not keep a picture larger than the limit', () => {
  const cache = new FrameCache(30);
  cache.put(one, 0, new Uint8Array(31));
  expect(cache.get(one, 0)).toBeNull();
  expect(cache.bytes).toBe(0);
});

it('keeps clips apart and drops one of them', () => {
  const cache = new FrameCache(30);
  cache.put(one, 0, new Uint8Array(1));
  cache.put(other, 0, new Uint8Array(2));
  cache.drop(one);
  expect([cache.get(one, 0), cache.get(other, 0)?.length, cache.bytes]).toEqual([null, 2, 2]);
});
