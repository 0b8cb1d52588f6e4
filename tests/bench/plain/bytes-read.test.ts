import { expect, test } from 'vitest';
import { sumOf } from './bytes-read.ts';

test('what the kernel tells is added up for one file: refused calls are nothing, and a call on two lines is one', () => {
  const trace = [
    '10 read(17</media/clip.mp4>, ""..., 100) = 100',
    '10 read(18</media/clip.mp4.other>, ""..., 100) = 50',
    '11 pread64(17</media/clip.mp4>,  <unfinished ...>',
    '12 read(19</media/other.mp4>,  <unfinished ...>',
    '11 <... pread64 resumed>""..., 1000, 4096) = 1000',
    '12 <... read resumed>""..., 7) = 7',
    '11 <... read resumed>""..., 9) = 9',
    '10 read(17</media/clip.mp4>, 0x7f, 100) = -1 EAGAIN (Resource temporarily unavailable)',
    '',
  ].join('\n');
  expect(sumOf(trace, '/media/clip.mp4')).toBe(1100);
});
