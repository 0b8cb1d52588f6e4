import { describe, expect, it } from 'vitest';
import { pictureFilter, samplesAsStored } from '../../../core/video/decode/picture-filter.ts';
import { CUBE_SIZE, cubeText, pqLight, toneMap } from '../../../core/video/decode/tone-cube.ts';
import { within } from '../../support/within.ts';

const upright = { width: 640, height: 360, turn: 0, mirrored: false } as const;
const tags = { range: 'tv', matrix: 'bt709', primaries: 'bt709', transfer: 'bt709' } as const;
const noTags = { range: null, matrix: null, primaries: null, transfer: null } as const;
const stored = { storedWidth: 640, storedHeight: 360 } as const;
const tagged = { ...stored, colour: tags } as const;
const untagged = { ...stored, colour: noTags } as const;

describe('the filter of a picture', () => {
  it('scales before it turns, so that the sizes are those of the stored side', () => {
    const filter = pictureFilter({ ...upright, width: 1080, height: 1920, turn: 90 }, tagged, 'png', null);
    expect(filter).toMatch(/^scale=w='if\([^']*,1920,[^']*':h='if\([^']*,1080,.*,transpose=clock,setsar=1\b/);
  });

  it('mirrors before it turns', () => {
    const filter = pictureFilter({ ...upright, turn: 180, mirrored: true }, tagged, 'rgba', null);
    expect(filter).toMatch(/format=rgba,pad=[^,]*,hflip,hflip,vflip,setsar=1$/);
  });

  it('takes an untagged clip for BT.601 when it is small and for BT.709 when it is large', () => {
    expect(pictureFilter(upright, untagged, 'png', null)).toContain('in_color_matrix=bt601');
    expect(pictureFilter({ ...upright, width: 1280, height: 720 }, untagged, 'png', null)).toContain(
      'in_color_matrix=bt709',
    );
    expect(pictureFilter(upright, tagged, 'png', null)).not.toContain('in_color_matrix');
  });

  it('gives proxy pictures the matrix and range that they are tagged with', () => {
    expect(pictureFilter(upright, tagged, 'proxy', null)).toContain('out_color_matrix=bt709:out_range=tv');
  });

  it('leaves the samples alone where they can be shown as they are, and only there', () => {
    const square = { ...upright, pixelAspect: { num: 1, den: 1 } };
    const plain = { colour: tags, pixelFormat: 'yuv420p' };
    expect(pictureFilter(upright, tagged, 'i420', null)).not.toContain('matrix');
    expect(samplesAsStored(square, plain)).toBe(true);
    expect(samplesAsStored({ ...square, pixelAspect: { num: 8, den: 9 } }, plain)).toBe(false);
    expect(samplesAsStored({ ...square, width: 641 }, plain)).toBe(false);
    expect(samplesAsStored(square, { ...plain, pixelFormat: 'yuv420p10le' })).toBe(false);
    expect(samplesAsStored(square, { ...plain, pixelFormat: null })).toBe(false);
    expect(samplesAsStored(square, { ...plain, colour: { ...tags, transfer: 'smpte2084' } })).toBe(false);
    expect(samplesAsStored(square, { ...plain, colour: { ...tags, matrix: 'bt2020nc' } })).toBe(false);
  });
});

describe('high dynamic range', () => {
  it('follows the published curve: PQ 0.5081 is 100 cd/m2, 0.7518 is 1000, 1 is 10,000 (ITU-R BT.2408-7, table 1)', () => {
    within(pqLight(0.5081), 100, 0.1);
    within(pqLight(0.7518), 1000, 1);
    within(pqLight(1), 10_000, 1e-6);
    within(pqLight(0), 0, 1e-6);
  });

  it('keeps grey grey and rising, black black, and puts reference white high but not at the top', () => {
    for (const [curve, white] of [
      ['hlg', 0.75],
      ['pq', 0.58],
    ] as const) {
      let before = -1;
      for (let signal = 0; signal <= 1; signal += 0.01) {
        const [r, g, b] = toneMap(curve, [signal, signal, signal]);
        within(r, g, 2e-3);
        within(b, g, 2e-3);
        expect(g).toBeGreaterThan(before - 1e-9);
        before = g;
      }
      within(toneMap(curve, [0, 0, 0])[1], 0, 1e-6);
      within(toneMap(curve, [white, white, white])[1], 0.92, 0.05);
    }
  });

  it('makes a table that ffmpeg reads: red fastest, every value within 0 to 1', () => {
    const [size, ...rows] = cubeText('hlg').trim().split('\n');
    expect(size).toBe(`LUT_3D_SIZE ${CUBE_SIZE}`);
    expect(rows).toHaveLength(CUBE_SIZE ** 3);
    const values = rows.map((row) => row.split(' ').map(Number));
    expect(values.flat().every((value) => value >= 0 && value <= 1)).toBe(true);
    const [red = 0, , blue = 0] = values[CUBE_SIZE - 1] ?? [];
    expect(red).toBeGreaterThan(blue);
  });
});
