import { expect, test } from 'vitest';
import { heardWith } from '../../../core/propose/heard-with.ts';

const loud = (seconds: number) => [{ seconds, loudness: 200 }];
/** The last frame with the ball begins at 2 s, the one after it ends at 2.067 s: thirty a second. */
const IMPACT = { from: 2, to: 2.067 };

test('a strike is heard with an impact, as late as from a player 15 m off (343 m/s)', () => {
  expect(heardWith(loud(2.03), IMPACT, 1)).toBe('with it');
  expect(heardWith(loud(2.067 + 15 / 343), IMPACT, 1)).toBe('with it');
});

test('what is heard later is an echo or a recorder of its own, and says nothing; nor does silence, or what is faint', () => {
  expect(heardWith(loud(2.16 + 0.067), IMPACT, 1)).toBe('nothing');
  expect(heardWith([], IMPACT, 1)).toBe('nothing');
  expect(heardWith([{ seconds: 2.03, loudness: 20 }], IMPACT, 1)).toBe('nothing');
});

test('no strike is heard before it happens: one just before speaks against it, one of another swing does not', () => {
  expect(heardWith(loud(1.9), IMPACT, 1)).toBe('before it');
  expect(heardWith([...loud(1.9), ...loud(2.03)], IMPACT, 1)).toBe('with it');
  expect(heardWith(loud(1.2), IMPACT, 1)).toBe('nothing');
});

test('the sound of slowed pictures is no witness', () => {
  expect(heardWith(loud(2.03), IMPACT, 4)).toBe('nothing');
});
