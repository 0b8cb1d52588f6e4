import { expect, test } from 'vitest';
import { placeFlags } from '../../../renderer/views/flags.ts';

const at = (index: number) => ({ index, pts: index, ticks: 1 });

test('flags stand over their frames, between the ends that the slider reaches', () => {
  const flags = placeFlags({ checkpoints: { address: at(0), finish: at(100) } }, 100, 716);
  expect(flags.map((flag) => flag.left)).toEqual([8, 708]);
});

test('names that would lie on one another take the second row, or leave a tick alone', () => {
  const close = { top: at(50), impact: at(51), through: at(52) };
  const flags = placeFlags({ checkpoints: close }, 100, 716);
  expect(flags.map(({ text, row }) => [text, row])).toEqual([
    ['Top', 0],
    ['Impact', 1],
    ['', 0],
  ]);
});

test('a clip of one frame has its flag at the left end', () => {
  expect(placeFlags({ checkpoints: { impact: at(0) } }, 0, 716)[0]?.left).toBe(8);
});
