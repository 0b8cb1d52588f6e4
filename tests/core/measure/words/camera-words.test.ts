import { expect, test } from 'vitest';
import { exampleWords } from '../../../../core/measure/words/camera-words.ts';

const DEGREE = Math.PI / 180;

/** 40 degrees from vertical seen 10 degrees off look 39.569: tan(apparent) = tan(true) cos(yaw), derived. */
test('what a turned camera makes of an incline is told in as many figures as its own ± leaves', () => {
  const words = (u: number) => exampleWords({ value: 10 * DEGREE, u: u * DEGREE }, 'down-the-line');
  expect(words(0.5)).toContain('40° looks about 39.57°');
  expect(words(5)).toContain('40° looks about 39.6°');
});
