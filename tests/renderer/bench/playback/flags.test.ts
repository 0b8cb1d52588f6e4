import { expect, test } from 'vitest';
import { placeFlags } from '../../../../renderer/bench/playback/flags.ts';

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

test("a name at an end of the strip begins or ends there, at any size of text, and is in nobody else's way", () => {
  const ends = { address: at(0), takeaway: at(12), finish: at(100) };
  for (const size of [100, 150, 200])
    expect(placeFlags({ checkpoints: ends }, 100, 716, size).map(({ from }) => from)).toEqual([
      'start',
      'middle',
      'end',
    ]);
  // "Address" is 7 letters: 98 px of 200 %, from 0 on; "Takeaway" 112 px round 92, so it begins before that ends.
  expect(placeFlags({ checkpoints: ends }, 100, 716, 200).map(({ row }) => row)).toEqual([0, 1, 0]);
  // "Finish" ends at 716 and begins at 632, where "Through" round 652 still lies.
  const late = { through: at(92), finish: at(100) };
  expect(placeFlags({ checkpoints: late }, 100, 716, 200).map(({ from, row }) => [from, row])).toEqual([
    ['middle', 0],
    ['end', 1],
  ]);
});
