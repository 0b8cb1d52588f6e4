import { expect, test } from 'vitest';
import { placeDamage } from '../../../../renderer/bench/playback/damage-marks.ts';
import { placeOnStrip } from '../../../../renderer/bench/playback/flags.ts';

const frames = Array.from({ length: 101 }, (_, pts) => ({ pts, ticks: 1, key: false }));

test('a mark lies under the frames it tells of, and says which they are', () => {
  const [mark] = placeDamage({ frames, damage: [{ from: 20, to: 40 }] }, 716);
  expect(mark).toEqual({ left: 8 + 19.5 * 7, width: 21 * 7, text: 'Frames 20 to 40 are damaged' });
  expect(mark?.left).toBeLessThan(placeOnStrip(20, 100, 716));
});

test('a single frame can be seen, and no mark leaves the strip', () => {
  const damage = [0, 50, 100].map((frame) => ({ from: frame, to: frame }));
  const marks = placeDamage({ frames, damage }, 300);
  for (const { left, width } of marks) {
    expect(width).toBe(10);
    expect(left).toBeGreaterThanOrEqual(0);
    expect(left + width).toBeLessThanOrEqual(300);
  }
  expect(marks[1]?.text).toBe('Frame 50 is damaged');
  expect(placeDamage({ frames, damage: [{ from: 0, to: 100 }] }, 300)).toEqual([
    { left: 8, width: 284, text: 'Frames 0 to 100 are damaged' },
  ]);
});

test('a clip of one damaged frame has its mark at the left end', () => {
  expect(placeDamage({ frames: frames.slice(0, 1), damage: [{ from: 0, to: 0 }] }, 300)[0]?.left).toBe(3);
});
