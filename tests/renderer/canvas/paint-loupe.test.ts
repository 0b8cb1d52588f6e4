import { test } from 'vitest';
import { enlargement } from '../../../renderer/canvas/paint-loupe.ts';
import { within } from '../../support/within.ts';

test('the enlarged view shows as large a part of the player in a picture of any size', () => {
  // 133 CSS pixels hold 44 lines of 1080, so 88 of 2160 and 20 of 492.
  within(enlargement({ width: 1920, height: 1080 }, 44), 133 / 44, 1e-12);
  within(enlargement({ width: 3840, height: 2160 }, 44), 133 / 88, 1e-12);
  within(enlargement({ width: 354, height: 492 }, 44), 133 / 20.044, 1e-3);
});
