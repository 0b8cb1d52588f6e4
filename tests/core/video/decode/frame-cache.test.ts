import { expect, it } from 'vitest';
import { createFrameCache } from '../../../../core/video/decode/frame-cache.ts';

it('never holds more than its bytes and forgets what was longest unused', () => {
  const cache = createFrameCache(30);
  for (const frame of [0, 1, 2]) cache.set(`a/${frame}`, new Uint8Array(10));
  cache.get('a/0');
  cache.set('a/3', new Uint8Array(10));
  expect([0, 1, 2, 3].map((frame) => cache.has(`a/${frame}`))).toEqual([true, false, true, true]);
  expect(cache.calculatedSize).toBe(30);
});

it('counts a picture that is put twice once, and does not keep one larger than all of it', () => {
  const cache = createFrameCache(30);
  cache.set('a/0', new Uint8Array(10));
  cache.set('a/0', new Uint8Array(20));
  expect(cache.calculatedSize).toBe(20);
  cache.set('a/1', new Uint8Array(31));
  expect([cache.has('a/1'), cache.calculatedSize]).toEqual([false, 20]);
});

it('takes a picture without bytes', () => {
  const cache = createFrameCache(30);
  cache.set('a/0', new Uint8Array(0));
  expect(cache.get('a/0')).toHaveLength(0);
});
