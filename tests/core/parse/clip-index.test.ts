import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { clipIndex } from '../../../core/parse/clip-index.ts';
import { sampleIndex } from '../book/sample.ts';

const accepted = (fields: Record<string, unknown>): boolean => v.is(clipIndex, { ...sampleIndex(5), ...fields });

describe('the damage of a clip index', () => {
  it.each([
    ['none', []],
    ['one frame', [{ from: 0, to: 0 }]],
    ['every frame', [{ from: 0, to: 4 }]],
    [
      'two spans with a sound frame between',
      [
        { from: 0, to: 1 },
        { from: 3, to: 4 },
      ],
    ],
  ])('may be %s', (_, damage) => {
    expect(accepted({ damage })).toBe(true);
  });

  it.each([
    ['behind the last frame', [{ from: 4, to: 5 }]],
    ['before the first frame', [{ from: -1, to: 0 }]],
    ['the wrong way round', [{ from: 3, to: 2 }]],
    [
      'two spans that touch',
      [
        { from: 0, to: 1 },
        { from: 2, to: 3 },
      ],
    ],
    [
      'two spans that overlap',
      [
        { from: 0, to: 2 },
        { from: 2, to: 3 },
      ],
    ],
    [
      'out of order',
      [
        { from: 3, to: 4 },
        { from: 0, to: 1 },
      ],
    ],
    ['half a frame', [{ from: 0.5, to: 1 }]],
    ['a number', 3],
    ['missing', undefined],
  ])('may not be %s', (_, damage) => {
    expect(accepted({ damage })).toBe(false);
  });
});

it('knows three dynamic ranges and no other', () => {
  for (const dynamicRange of ['sdr', 'hlg', 'pq']) expect(accepted({ dynamicRange })).toBe(true);
  for (const dynamicRange of ['hdr', '', null, undefined]) expect(accepted({ dynamicRange })).toBe(false);
});
