import { expect, test } from 'vitest';
import { meanColourOf, meanOf } from '../../../renderer/canvas/mean-colour.ts';

test('the mean of four pixels, channel by channel', () => {
  // Reds 0, 10, 20, 30; greens 100 each; blues 0, 0, 0, 255 (63.75).
  const samples = [...[0, 100, 0, 255], ...[10, 100, 0, 255], ...[20, 100, 0, 255], ...[30, 100, 255, 255]];
  expect(meanOf(samples)).toBe('rgb(15 100 64)');
});

test('a clip of which nothing was seen has a colour that is neither black nor white', () => {
  expect(meanColourOf('never seen')).toMatch(/^#[5-9]/);
});
