import { describe, expect, it } from 'vitest';
import { fitHomography } from '../../../core/geometry/fit-homography.ts';
import { ON_A_LINE } from '../../../core/geometry/ground-marks.ts';
import type { GroundMark, GroundPoint } from '../../../core/geometry/ground-marks.ts';
import { demoGround, seenBy } from '../../support/ground-scenes.ts';

describe('marks that give no map are refused with the reason:', () => {
  const good = demoGround('down-the-line', 'right').marks;
  const see = (ground: readonly GroundPoint[]) => seenBy(demoGround('down-the-line', 'right').camera, 'right', ground);

  it('fewer than four', () => {
    expect(fitHomography([])).toEqual({ state: 'refused', reason: 'too-few', marks: [] });
    expect(fitHomography(good.slice(0, 3))).toEqual({ state: 'refused', reason: 'too-few', marks: [0, 1, 2] });
  });

  it('two in one place, on the ground or in the picture', () => {
    const [a, b, c, d] = good;
    if (a === undefined || b === undefined || c === undefined || d === undefined) throw new Error('four marks');
    const refused = { state: 'refused', reason: 'same-place', marks: [1, 4] };
    expect(fitHomography([a, b, c, d, { ground: b.ground, picture: { x: 5, y: 900 } }])).toEqual(refused);
    expect(fitHomography([a, b, c, d, { ground: { x: 0, y: 0 }, picture: b.picture }])).toEqual(refused);
    expect(fitHomography([a, b, c, { ...b }])).toMatchObject({ reason: 'same-place', marks: [1, 3] });
  });

  it('three of four on a line, all on a line, all but one of six on a line', () => {
    const row = [-800, -400, 0, 400, 800].map((x) => ({ x, y: 300 }));
    const reason = (ground: readonly GroundPoint[]) => fitHomography(see(ground));
    expect(reason([...row.slice(0, 3), { x: 0, y: 900 }])).toMatchObject({ reason: 'on-a-line' });
    expect(reason(row)).toMatchObject({ reason: 'on-a-line' });
    expect(reason([...row, { x: 0, y: 900 }])).toMatchObject({ reason: 'on-a-line', marks: [0, 1, 2, 3, 4, 5] });
    // Two beside the line are enough.
    expect(reason([...row, { x: 0, y: 900 }, { x: 500, y: 1000 }])).toMatchObject({ state: 'fitted' });
  });

  it('as good as on a line, by the millimetres of the ground or the pixels of the picture', () => {
    const bent = (height: number) => [
      { x: -800, y: 300 },
      { x: 0, y: 300 + height },
      { x: 800, y: 300 },
      { x: 0, y: 1000 },
    ];
    expect(fitHomography(see(bent(ON_A_LINE.ground - 1)))).toMatchObject({ reason: 'on-a-line' });
    // In the picture of a camera nearly level with the ground a ditch of 200 mm is no more than a pixel high.
    expect(fitHomography(see(bent(200)))).toMatchObject({ state: 'fitted' });
    const flat = (marks: readonly GroundMark[]) =>
      marks.map(({ ground, picture }) => ({ ground, picture: { x: picture.x, y: 540 + (picture.y - 540) / 100 } }));
    expect(fitHomography(flat(see(bent(200))))).toMatchObject({ reason: 'on-a-line' });
  });

  it('two mixed up: no camera sees them so', () => {
    const [a, b, c, d] = good;
    if (a === undefined || b === undefined || c === undefined || d === undefined) throw new Error('four marks');
    const crossed = [{ ground: a.ground, picture: b.picture }, { ground: b.ground, picture: a.picture }, c, d];
    expect(fitHomography(crossed)).toMatchObject({ state: 'refused', reason: 'over-horizon' });
  });

  it('and what is no number is a mistake of ours', () => {
    const broken = good.map((mark, i) => (i === 2 ? { ...mark, picture: { x: Number.NaN, y: 3 } } : mark));
    expect(() => fitHomography(broken)).toThrow('finite');
  });
});
