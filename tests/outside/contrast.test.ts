import { describe, expect, test } from 'vitest';
import { STYLE_COLOURS, OUTLINE_COLOUR, PLATE_OPACITY, SHAPE_INKS } from '../../core/painting/styles.ts';
import { SHEET_COLOURS } from '../../core/painting/paint-sheet.ts';
import { contrast, fromHex, luminance, over } from '../support/contrast.ts';
import { within } from '../support/within.ts';

describe('the contrast formula gives published values', () => {
  test('the worked pair of the npm package contrast-ratio-checker', () => {
    within(luminance(fromHex('#FF8100')), 0.36960513804637335, 1e-12, 'luminance of FF8100');
    within(contrast('#FF8100', '#64003A'), 5.235369975583679, 1e-12);
    within(contrast('#E5E5E5', '#AABB00'), 1.698093107780376, 1e-12);
  });

  test.each([
    // Black on white is the definition's largest ratio (WCAG 2.2); the two with blue are printed in an accessibility book.
    ['#000000', '#FFFFFF', 21, 0.005],
    ['#0000FF', '#FFFFFF', 8.59, 0.005],
    ['#0000FF', '#FF0000', 2.15, 0.005],
    // Worked from the formula by hand, to four places: the greys on either side of 4.5, 7 and 3, and the pure colours.
    ['#767676', '#FFFFFF', 4.5422, 0.00005],
    ['#777777', '#FFFFFF', 4.4781, 0.00005],
    ['#595959', '#FFFFFF', 7.0047, 0.00005],
    ['#949494', '#FFFFFF', 3.0335, 0.00005],
    ['#FF0000', '#FFFFFF', 3.9985, 0.00005],
    ['#FFFF00', '#000000', 19.556, 0.0005],
    ['#FFFF00', '#FFFFFF', 1.0738, 0.00005],
    ['#00FF00', '#000000', 15.304, 0.0005],
    ['#00FFFF', '#000000', 16.748, 0.0005],
    ['#FF00FF', '#000000', 6.696, 0.0005],
    ['#FFFFFF', '#3F7F3F', 4.862, 0.0005],
    ['#FFFF00', '#3F7F3F', 4.528, 0.0005],
    ['#000000', '#3F7F3F', 4.319, 0.0005],
  ])('%s on %s is %d', (one, other, expected, tolerance) => {
    within(contrast(one, other), expected, tolerance);
    expect(contrast(other, one)).toBe(contrast(one, other));
  });
});

/** WCAG 2.2, 1.4.11: graphics need 3:1. 1.4.3: text needs 4.5:1. 1.4.6: 7:1 for more than that. */
const GRAPHICS = 3;
const TEXT = 4.5;
const ENHANCED_TEXT = 7;

/** What lies behind lines in a bay and on a range, light and dark. */
const SCENES = {
  'grass in the sun': '#8DA653',
  grass: '#3F7F3F',
  'grass in the shade': '#1F3A1C',
  'green mat': '#2E6B4A',
  'grey mat': '#6B6E70',
  'blue sky': '#8DB9E8',
  'white sky': '#FBFBFC',
  'black net': '#1A1A1C',
  'white net': '#D9DCDD',
  skin: '#C58C6B',
  'orange shirt': '#E69F00',
  'blue shirt': '#56B4E9',
  'navy trousers': '#1B2A4A',
  denim: '#3B5A80',
};

/** Every colour that a line may have: those of then, now and neither, and those that a coach may choose. */
const LINES = { ...STYLE_COLOURS, ...SHAPE_INKS };

describe.each(Object.entries(LINES))('the colour %s', (_, colour) => {
  test.each(Object.entries(SCENES))('holds 3:1 on %s, by its line or by its outline', (_, scene) => {
    const best = Math.max(contrast(colour, scene), contrast(OUTLINE_COLOUR, scene));
    expect(best).toBeGreaterThanOrEqual(GRAPHICS);
  });

  test('holds 3:1 on every brightness there is, by its line or by its outline', () => {
    for (let level = 0; level < 256; level++) {
      const grey = `#${level.toString(16).padStart(2, '0').repeat(3)}`;
      const best = Math.max(contrast(colour, grey), contrast(OUTLINE_COLOUR, grey));
      expect(best, grey).toBeGreaterThanOrEqual(GRAPHICS);
    }
  });

  test('stands out from its own outline', () => {
    expect(contrast(colour, OUTLINE_COLOUR)).toBeGreaterThanOrEqual(GRAPHICS);
  });

  test('is read on its plate over anything, white included', () => {
    const plateOverWhite = over([0, 0, 0], PLATE_OPACITY, fromHex('#FFFFFF'));
    expect(contrast(colour, plateOverWhite)).toBeGreaterThanOrEqual(TEXT);
  });
});

test('both tones of a sheet are read with ease on its ground', () => {
  for (const tone of [SHEET_COLOURS.ink, SHEET_COLOURS.quiet])
    expect(contrast(tone, SHEET_COLOURS.ground)).toBeGreaterThanOrEqual(ENHANCED_TEXT);
});
