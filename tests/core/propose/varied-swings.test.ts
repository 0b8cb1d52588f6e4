import { expect, test } from 'vitest';
import { motionBetween, smoothed } from '../../../core/propose/motion.ts';
import { proposeSwing } from '../../../core/propose/propose-swing.ts';
import { seeded } from '../../support/seeded.ts';
import { sized } from '../../support/sized.ts';
import { variedSwing, type VariedSwing } from '../../support/varied-swing.ts';

/** Other players, tempos, hands, cameras and rates than the program was made by; the truth is the scene's geometry. */
const SWINGS = sized(2, 200);
const SEED = 30_11;

function motionOf({ clip }: VariedSwing): readonly number[] {
  const raw = Array.from({ length: clip.to }, (_, frame) =>
    frame === 0 ? 0 : motionBetween(clip.at(frame - 1), clip.at(frame)),
  );
  return smoothed(raw);
}

const proposedOf = (swing: VariedSwing) =>
  proposeSwing(motionOf(swing), (from, to) => Promise.resolve({ ...swing.clip, from, to: to + 1 }));

/**
 * Within so many frames an instant of a swing counts as found: max(round((impact - address) / 30), 1), as published for sets of
 * swing videos in real time and slow motion (references 2.7; published there: 76.1 % over eight instants, 91.8 % over six).
 */
const within = ({ truth }: VariedSwing): number => Math.max(Math.round((truth.impact - truth.address) / 30), 1);

test(`impact and top of ${String(SWINGS)} swings are found, of 98 in 100 (seed ${String(SEED)})`, async () => {
  const random = seeded(SEED);
  const missed: string[] = [];
  let early = 0;
  for (let count = 0; count < SWINGS; count += 1) {
    const swing = variedSwing(random);
    const found = await proposedOf(swing);
    const what = `${String(count)}, ${swing.view}, ${String(swing.framesPerSecond)} a second`;
    if (typeof found === 'string') {
      missed.push(`${what}: ${found}`);
      continue;
    }
    const off = (checkpoint: 'address' | 'top' | 'impact') => found[checkpoint].frame - swing.truth[checkpoint];
    for (const checkpoint of ['top', 'impact'] as const)
      if (Math.abs(off(checkpoint)) > within(swing))
        missed.push(`${what}: ${checkpoint} off by ${String(off(checkpoint))}`);
    if (Math.abs(off('address')) <= within(swing)) early += 1;
  }
  console.log(`address within the same: ${String(early)} of ${String(SWINGS)}`);
  expect(missed.length, missed.join('\n')).toBeLessThanOrEqual(Math.floor(2 * 0.02 * SWINGS));
}, 600_000);

test('without a ball impact is unsure, and so is all else', async () => {
  const found = await proposedOf(variedSwing(seeded(SEED + 1), { practice: true }));
  if (typeof found === 'string') throw new Error(found);
  expect([found.address.sure, found.top.sure, found.impact.sure]).toEqual([false, false, false]);
}, 60_000);

test('where all moves, or nothing, there is no proposal', async () => {
  const none = () => Promise.reject(new Error('no picture is asked for'));
  expect(await proposeSwing(new Array<number>(200).fill(0), none)).toBe('nothing swings');
  const random = seeded(5);
  expect(
    await proposeSwing(
      Array.from({ length: 200 }, () => 1 + random()),
      none,
    ),
  ).toBe('all moves');
});
