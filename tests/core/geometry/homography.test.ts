import { describe, expect, it } from 'vitest';
import { fitHomography, scatteredHomography } from '../../../core/geometry/fit-homography.ts';
import type { HomographyFit } from '../../../core/geometry/fit-homography.ts';
import type { GroundMark, GroundPoint } from '../../../core/geometry/ground-marks.ts';
import { homographyOf, toGround, toPicture } from '../../../core/geometry/homography.ts';
import { entry } from '../../../core/geometry/linear.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import type { PicturePoint } from '../../../core/model/mark.ts';
import { VIEWS } from '../../../core/model/words.ts';
import { demoGround, placedAgain, randomGround, seenBy, trueMap } from '../../support/ground-scenes.ts';
import { within } from '../../support/within.ts';

const SEED = 31;
const SCENES = 100;

function fitted(marks: readonly GroundMark[]): HomographyFit {
  const fit = fitHomography(marks);
  if (fit.state === 'refused') throw new Error(`seed ${String(SEED)}: refused, ${fit.reason}`);
  return fit;
}

function isAt(found: PicturePoint | null, expected: PicturePoint | null, tolerance: number, what: string): void {
  within(found?.x ?? Number.NaN, expected?.x ?? Number.NaN, tolerance, `${what}, x`);
  within(found?.y ?? Number.NaN, expected?.y ?? Number.NaN, tolerance, `${what}, y`);
}

function scenes(sigma: number): GroundMark[][] {
  const numbers = seeded(SEED);
  return Array.from({ length: SCENES }, (_, i) =>
    placedAgain(randomGround(numbers, 4 + (i % 6)).marks, sigma, numbers),
  );
}

describe('the map of the ground', () => {
  it('is the one that the camera makes, where the marks are placed exactly', () => {
    for (const view of VIEWS)
      for (const hand of ['right', 'left'] as const) {
        const { camera, marks } = demoGround(view, hand);
        const { homography, rms } = fitted(marks);
        within(rms, 0, 1e-9, 'rms');
        const found = homography.groundToPicture;
        const truth = trueMap(camera, hand);
        // Entries reach 1,500; rounding of the marks' pixels (1e-13) grows by the few hundred that the ground is seen under.
        truth.forEach((row, i) =>
          row.forEach((value, j) => within(entry(found, i, j) / entry(found, 2, 2), value, 1e-9, `${view} ${hand}`)),
        );
      }
  });

  it('leads back: the ground under the picture of a place is that place, and the other way round', () => {
    const numbers = seeded(SEED);
    for (const marks of scenes(3)) {
      const { homography } = fitted(marks);
      for (let i = 0; i < 5; i += 1) {
        const place = { x: 800 * (2 * numbers.uniform() - 1), y: 800 * (2 * numbers.uniform() - 1) };
        const seen = toPicture(homography, place);
        if (seen === null) throw new Error('over the horizon');
        // 1e-12 px of rounding, at up to 100 mm a pixel on low cameras.
        isAt(toGround(homography, seen), place, 1e-6, 'ground');
      }
    }
  });

  it('does not depend on the order of the marks', () => {
    for (const marks of scenes(3)) {
      const one = fitted(marks);
      const other = fitted([...marks].reverse());
      marks.forEach(({ ground }) => {
        // Both stop where a step changes nothing that could be seen.
        isAt(toPicture(other.homography, ground), toPicture(one.homography, ground), 1e-7, 'picture');
      });
      one.residuals.forEach((value, i) => within(other.residuals.at(-1 - i) ?? Number.NaN, value, 1e-7, 'residual'));
    }
  });

  it('goes with the ground and with the picture, moved, turned and scaled', () => {
    const turned = (by: number, scale: number, x: number, y: number) => (place: GroundPoint) => ({
      x: x + scale * (Math.cos(by) * place.x - Math.sin(by) * place.y),
      y: y + scale * (Math.sin(by) * place.x + Math.cos(by) * place.y),
    });
    const onGround = turned(2.1, 1.7, 4000, -2500);
    const inPicture = turned(-0.7, 1.3, 500, 300);
    for (const marks of scenes(3)) {
      const plain = fitted(marks);
      const other = fitted(
        marks.map(({ ground, picture }) => ({ ground: onGround(ground), picture: inPicture(picture) })),
      );
      within(other.rms, 1.3 * plain.rms, 1e-7, 'rms');
      for (const place of [
        { x: 0, y: 0 },
        { x: 300, y: -500 },
      ]) {
        const seen = toPicture(plain.homography, place);
        isAt(toPicture(other.homography, onGround(place)), seen && inPicture(seen), 1e-6, 'picture');
      }
    }
  });

  it('has no smaller sum of squares beside it', () => {
    for (const marks of scenes(3)) {
      const fit = fitted(marks);
      const sum = (homography: HomographyFit['homography']): number =>
        marks.reduce((total, { ground, picture }) => {
          const seen = toPicture(homography, ground);
          return total + ((seen?.x ?? NaN) - picture.x) ** 2 + ((seen?.y ?? NaN) - picture.y) ** 2;
        }, 0);
      const least = sum(fit.homography);
      within(least, fit.rms ** 2 * marks.length, 1e-8, 'sum of squares');
      within(
        least,
        fit.residuals.reduce((total, value) => total + value ** 2, 0),
        1e-8,
        'sum of residuals',
      );
      fit.spread.forEach((_, k) => {
        for (const sign of [1, -1]) {
          const beside = scatteredHomography(
            fit,
            fit.spread.map((_other, i) => (i === k ? 0.1 * sign : 0)),
            1,
          );
          expect(beside === null ? Infinity : sum(beside)).toBeGreaterThan(least);
        }
      });
    }
  });

  it('tells the placing error from what is left over, with more than four marks', () => {
    const numbers = seeded(SEED);
    const { camera, handedness } = randomGround(numbers, 4);
    const ground = [-900, 0, 900].flatMap((x) => [-900, 0, 900].map((y) => ({ x, y })));
    const marks = seenBy(camera, handedness, ground);
    const times = 400;
    let squares = 0;
    for (let time = 0; time < times; time += 1) squares += (fitted(placedAgain(marks, 2, numbers)).scatter ?? NaN) ** 2;
    // 400 times 2 x 9 - 8 = 10 degrees of freedom: the mean square is known to sqrt(2 / 4000) = 2.2 %; three times that.
    within(squares / times / 4, 1, 0.067, `seed ${String(SEED)}`);
    expect(fitted(marks.filter((_, i) => [0, 2, 6, 8].includes(i))).scatter).toBeNull();
  });
});

describe('the scatter of the map', () => {
  const PLACES = [
    { x: 0, y: 0 },
    { x: 900, y: -900 },
    { x: 1500, y: 400 },
  ];
  const TIMES = 2000;

  /** How the ground under picture points moves with each of the eight numbers, mm a standard deviation. */
  function slopesAt(fit: HomographyFit, seen: PicturePoint): GroundPoint[] {
    const step = 1e-3;
    return fit.spread.map((_, k) => {
      const at = (by: number): GroundPoint => {
        const z = fit.spread.map((_other, i) => (i === k ? by : 0));
        const map = scatteredHomography(fit, z, 1);
        const found = map && toGround(map, seen);
        if (found === null) throw new Error('over the horizon');
        return found;
      };
      const [ahead, behind] = [at(step), at(-step)];
      return { x: (ahead.x - behind.x) / (2 * step), y: (ahead.y - behind.y) / (2 * step) };
    });
  }

  it.each([4, 7])(
    'with %i marks is that of 2,000 markings, at places inside and outside of them',
    (count) => {
      const numbers = seeded(SEED + count);
      const { marks } = randomGround(numbers, count);
      const fit = fitted(marks);
      const found = PLACES.map((place) => {
        const seen = toPicture(fit.homography, place);
        if (seen === null) throw new Error('over the horizon');
        return { place, seen, slopes: slopesAt(fit, seen), sums: { xx: 0, yy: 0, xy: 0 } };
      });
      for (let time = 0; time < TIMES; time += 1) {
        const { homography } = fitted(placedAgain(marks, 1, numbers));
        for (const { place, seen, sums } of found) {
          const ground = toGround(homography, seen);
          const [x, y] = [(ground?.x ?? NaN) - place.x, (ground?.y ?? NaN) - place.y];
          sums.xx += (x * x) / TIMES;
          sums.yy += (y * y) / TIMES;
          sums.xy += (x * y) / TIMES;
        }
      }
      for (const { slopes, sums } of found) {
        const wanted = (pick: (slope: GroundPoint) => number) => slopes.reduce((sum, slope) => sum + pick(slope), 0);
        const xx = wanted(({ x }) => x * x);
        const yy = wanted(({ y }) => y * y);
        // A variance of 2,000 is known to sqrt(2 / 2000) = 3.2 %; four times that, and 1 % for what bends.
        const what = `seed ${String(SEED + count)}`;
        within(sums.xx / xx, 1, 0.137, what);
        within(sums.yy / yy, 1, 0.137, what);
        within((sums.xy - wanted(({ x, y }) => x * y)) / Math.sqrt(xx * yy), 0, 0.137, what);
      }
    },
    60_000,
  );

  it('is eight numbers, each of them worth something', () => {
    for (const marks of scenes(0)) {
      const { spread, homography } = fitted(marks);
      expect(spread).toHaveLength(8);
      for (const matrix of spread) {
        const moves = marks.map(({ ground }) => {
          const at = toPicture(homography, ground);
          const beside = homographyOf(
            homography.groundToPicture.map((row, i) => row.map((value, j) => value + 1e-3 * entry(matrix, i, j))),
          );
          const to = beside && toPicture(beside, ground);
          return ((to?.x ?? NaN) - (at?.x ?? NaN)) ** 2 + ((to?.y ?? NaN) - (at?.y ?? NaN)) ** 2;
        });
        // Each moves the marks by one standard deviation in all: eight ways, at right angles to each other.
        within(Math.sqrt(moves.reduce((sum, move) => sum + move, 0)) / 1e-3, 1, 0.01, `seed ${String(SEED)}`);
      }
    }
  });
});

describe('the horizon', () => {
  const { homography } = fitted(demoGround('face-on', 'right').marks);

  it('and what is above it have no ground', () => {
    expect(toGround(homography, { x: 700, y: 540 })).toBeNull();
    expect(toGround(homography, { x: 700, y: 300 })).toBeNull();
    expect(toGround(homography, { x: 700, y: 541 })).not.toBeNull();
  });

  it('has its like on the ground: what lies beside or behind the camera has no picture', () => {
    // It stands 6,400 mm from the origin on the ball's side.
    expect(toPicture(homography, { x: 0, y: 6400 })).toBeNull();
    expect(toPicture(homography, { x: 300, y: 9000 })).toBeNull();
    expect(toPicture(homography, { x: 300, y: 6300 })).not.toBeNull();
  });

  it('needs a map that can be undone', () => {
    expect(
      homographyOf([
        [1, 2, 3],
        [2, 4, 6],
        [0, 0, 1],
      ]),
    ).toBeNull();
  });
});
