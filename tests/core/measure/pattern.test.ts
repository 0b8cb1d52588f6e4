import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../../core/measure/catalogue.ts';
import { parsePattern, toleranceOf, wantedOf } from '../../../core/measure/pattern.ts';
import defaultPattern from '../../../resources/pattern.json';

describe('the default pattern', () => {
  const pattern = parsePattern(defaultPattern);

  it('says that it is common practice, and that its tolerances are ours', () => {
    expect(pattern.about).toContain('common practice');
    expect(pattern.about).toContain('no published source');
    expect(pattern.about).toMatch(/choice of this program, not norms/);
    for (const wanted of pattern.wanted) expect(wanted.basis).toBe('common practice, no published source');
  });

  it('wants the shoulders square to the spine, the head in its box, the toes out about 25 degrees', () => {
    expect(wantedOf(pattern, 'shoulder-to-spine', 'top')).toMatchObject({ from: 90, to: 90, unit: 'deg' });
    expect(wantedOf(pattern, 'head-box', 'top')).toMatchObject({ from: null, to: 0 });
    expect(wantedOf(pattern, 'head-box', 'impact')).toBeNull();
    expect(pattern.wanted.find(({ words }) => words.includes('25°'))).toMatchObject({
      reading: null,
      from: 25,
      to: 25,
    });
  });

  it('lists no range and no tolerance where its reading is never made', () => {
    for (const { reading, checkpoints } of pattern.wanted)
      for (const checkpoint of checkpoints)
        if (reading !== null) expect(CATALOGUE[reading].checkpoints).toContain(checkpoint);
    for (const { reading, aspect } of pattern.tolerances) expect(CATALOGUE[reading].aspects).toContain(aspect);
  });

  it('has each tolerance once', () => {
    const keys = pattern.tolerances.map(({ reading, aspect, unit }) => `${reading} ${aspect} ${unit}`);
    expect(new Set(keys).size).toBe(keys.length);
    expect(toleranceOf(pattern, 'tempo', 'value', 'ratio')).toBe(0.3);
    expect(toleranceOf(pattern, 'tempo', 'value', 'deg')).toBeNull();
  });
});

describe('a pattern that is not one', () => {
  const good = { name: 'Mine', about: 'Mine', wanted: [], tolerances: [] };
  const tolerance = { reading: 'tempo', aspect: 'value', unit: 'ratio', within: 0.2 };

  it.each([
    ['no object', [], /pattern must be an object/],
    ['nothing', null, /pattern must be an object/],
    ['no name', { ...good, name: '' }, /name must be a text/],
    ['no list', { ...good, wanted: {} }, /wanted must be a list/],
    [
      'an unknown reading',
      { ...good, tolerances: [{ ...tolerance, reading: 'luck' }] },
      /tolerances\[0\]\.reading must be one of/,
    ],
    [
      'an unknown unit',
      { ...good, tolerances: [{ ...tolerance, unit: 'mm' }] },
      /tolerances\[0\]\.unit must be one of/,
    ],
    ['a tolerance of nothing', { ...good, tolerances: [{ ...tolerance, within: 0 }] }, /within must be greater than 0/],
    [
      'a tolerance in words',
      { ...good, tolerances: [{ ...tolerance, within: '2' }] },
      /within must be a finite number/,
    ],
  ])('%s', (_, value, message) => {
    expect(() => parsePattern(value)).toThrow(message);
  });
});
