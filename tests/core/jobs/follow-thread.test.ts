import { expect, test } from 'vitest';
import { startFollowing } from '../../../core/jobs/follow-thread.ts';
import { within } from '../../support/within.ts';

const SIZE = { width: 64, height: 48, radius: 6 };

/** A bright square on a soft slope, so many pixels to the right. */
function picture(right: number): Uint8Array<ArrayBuffer> {
  return Uint8Array.from({ length: SIZE.width * SIZE.height }, (_, at) => {
    const [x, y] = [(at % SIZE.width) - right, Math.floor(at / SIZE.width)];
    const slope = 60 + x + 5 * Math.sin(0.7 * x) + 4 * Math.cos(0.9 * y);
    return Math.max(0, Math.min(255, x >= 26 && x < 34 && y >= 18 && y < 28 ? slope + 90 : slope));
  });
}

test('a thing is followed in a thread, picture by picture', async () => {
  const thread = startFollowing({ ...SIZE, at: { x: 30, y: 23 } });
  try {
    expect(await thread.next(picture(0))).toEqual({ at: { x: 30, y: 23 } });
    for (const right of [1, 2, 3]) {
      const to = await thread.next(picture(right));
      if ('lost' in to) throw new Error(to.lost);
      within(to.at.x, 30 + right, 0.1, 'whole pixels without noise');
      within(to.at.y, 23, 0.1);
    }
  } finally {
    await thread.end();
  }
}, 30_000);

test('ended, it fails what is asked of it still, and what is asked later; a picture too many is a mistake of ours', async () => {
  const thread = startFollowing({ ...SIZE, at: { x: 30, y: 23 } });
  const asked = thread.next(picture(0));
  const failed = expect(asked).rejects.toThrow('has ended');
  await expect(thread.next(picture(1))).rejects.toThrow('one picture at a time');
  await thread.end();
  await failed;
  await expect(thread.next(picture(2))).rejects.toThrow('has ended');
}, 30_000);
