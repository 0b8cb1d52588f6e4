import { expect, test } from 'vitest';
import { fitHomography } from '../../core/geometry/fit-homography.ts';
import { toPicture } from '../../core/geometry/homography.ts';
import type { GroundMark } from '../../core/geometry/ground-marks.ts';
import { entry, timesVector } from '../../core/geometry/linear.ts';
import type { Matrix } from '../../core/geometry/linear.ts';
import { seeded } from '../../core/measure/uncertainty/seeded.ts';
import { placedAgain, randomGround } from '../support/ground-scenes.ts';
import { freeing, visionLibrary } from '../support/vision-library.ts';
import { within } from '../support/within.ts';

function mapOf(marks: readonly GroundMark[]): Matrix {
  const fit = fitHomography(marks);
  if (fit.state === 'refused') throw new Error(`refused: ${fit.reason}`);
  const matrix = fit.homography.groundToPicture;
  return matrix.map((row) => row.map((value) => value / entry(matrix, 2, 2)));
}

/*
 * The unit square onto the quadrilateral (0,0) (4,0) (3,2) (1,2): derived. By the closed form of P. Heckbert, "Fundamentals
 * of Texture Mapping and Image Warping", 1989 (from memory), the map is [4 2 0; 0 4 0; 0 1 1]. Here the square is a metre
 * wide, in mm, and the quadrilateral a hundred times as large, so that marks are as far apart as they are on grass.
 */
test('the worked square and quadrilateral have their exact map, and the diagonals cross at (2, 4/3)', () => {
  const corners = [
    [0, 0, 0, 0],
    [1, 0, 4, 0],
    [1, 1, 3, 2],
    [0, 1, 1, 2],
  ] as const;
  const marks = corners.map(([x, y, u, v]) => ({
    ground: { x: 1000 * x, y: 1000 * y },
    picture: { x: 100 * u, y: 100 * v },
  }));
  const expected = [
    [0.4, 0.2, 0],
    [0, 0.4, 0],
    [0, 0.001, 1],
  ];
  const found = mapOf(marks);
  // Rounding of a fit that ends at the last digits of pixels in the hundreds.
  expected.forEach((row, i) =>
    row.forEach((value, j) => within(entry(found, i, j), value, 1e-11, `${String(i)}${String(j)}`)),
  );
  const fit = fitHomography(marks);
  const middle = fit.state === 'fitted' ? toPicture(fit.homography, { x: 500, y: 500 }) : null;
  within(middle?.x ?? NaN, 200, 1e-9);
  within(middle?.y ?? NaN, 400 / 3, 1e-9);
});

/*
 * R. Hartley, A. Zisserman, Multiple View Geometry in Computer Vision, 2nd ed., Example 6.2 (from memory): a camera with
 * skew and pixels that are not square. What it makes of the plane z = 0 are columns 1, 2 and 4 of its matrix (their section
 * 8.1); a map from marks has to find them without knowing any of it.
 */
test('the plane under the published camera has three columns of its matrix as its map', () => {
  const printed = [
    [3.53553e2, 3.39645e2, -1.44946e6],
    [-1.03528e2, 2.33212e1, -6.32525e5],
    [7.07107e-1, -3.53553e-1, -9.18559e2],
  ];
  const ground = [
    { x: 2600, y: 800 },
    { x: 4100, y: 900 },
    { x: 4300, y: 2500 },
    { x: 2700, y: 2300 },
    { x: 3400, y: 1500 },
  ];
  const marks = ground.map((place) => {
    const [u = NaN, v = NaN, w = NaN] = timesVector(printed, [place.x, place.y, 1]);
    return { ground: place, picture: { x: u / w, y: v / w } };
  });
  const found = mapOf(marks);
  const last = -9.18559e2;
  // Relative to each entry; the marks carry 1e-16 and the map's condition is some thousand.
  printed.forEach((row, i) =>
    row.forEach((value, j) => within((entry(found, i, j) * last) / value, 1, 1e-9, `${String(i)}${String(j)}`)),
  );
});

const SEED = 1234;
const SCENES = 1000;

/** Rounded to single precision, as the library does with points that it is given. */
function single(marks: readonly GroundMark[]): GroundMark[] {
  const of = ({ x, y }: { x: number; y: number }) => ({ x: Math.fround(x), y: Math.fround(y) });
  return marks.map(({ ground, picture }) => ({ ground: of(ground), picture: of(picture) }));
}

/** The library's map of the marks, by its plain method: direct, and with more than four points refined on the pixels. */
async function libraryMap(): Promise<(marks: readonly GroundMark[]) => number[]> {
  const cv = await visionLibrary();
  return (marks) =>
    freeing((keep) => {
      const list = (side: 'ground' | 'picture') =>
        keep(
          cv.matFromArray(
            marks.length,
            2,
            cv.CV_64F,
            marks.flatMap((mark) => [mark[side].x, mark[side].y]),
          ),
        );
      return Array.from(keep(cv.findHomography(list('ground'), list('picture'))).data64F);
    });
}

function apart(a: readonly number[], b: readonly number[], marks: readonly GroundMark[]): number {
  const seen = (h: readonly number[], x: number, y: number) => {
    const at = (i: number): number => h[i] ?? Number.NaN;
    const depth = at(6) * x + at(7) * y + at(8);
    return { x: (at(0) * x + at(1) * y + at(2)) / depth, y: (at(3) * x + at(4) * y + at(5)) / depth };
  };
  return Math.max(
    ...marks.map(({ ground }) => {
      const [one, other] = [seen(a, ground.x, ground.y), seen(b, ground.x, ground.y)];
      return Math.hypot(one.x - other.x, one.y - other.y);
    }),
  );
}

/** The largest distance, px, between our maps and the library's at the marks of many scenes; and how many were fitted. */
async function compared(seed: number, count: (scene: number) => number) {
  const theirs = await libraryMap();
  const numbers = seeded(seed);
  const found = { fits: 0, largest: 0 };
  for (let i = 0; i < SCENES; i += 1) {
    const marks = single(placedAgain(randomGround(numbers, count(i)).marks, 3, numbers));
    const fit = fitHomography(marks);
    if (fit.state === 'refused') {
      // Marks at random places can come to lie on each other, or nearly on a line: refused before any fit.
      expect(['same-place', 'on-a-line']).toContain(fit.reason);
      continue;
    }
    found.fits += 1;
    found.largest = Math.max(found.largest, apart(fit.homography.groundToPicture.flat(), theirs(marks), marks));
  }
  return found;
}

/* A general vision library as a second opinion: OpenCV 4.12, findHomography by its plain method. */

test('1,000 scenes of four marks have the map that a general vision library finds', async () => {
  const { fits, largest } = await compared(SEED, () => 4);
  // Both go exactly through the four: what differs is rounding of pixels in the thousands (5e-12 px).
  within(largest, 0, 1e-9, `seed ${String(SEED)}, px`);
  expect(fits).toBeGreaterThan(0.95 * SCENES);
});

test('1,000 scenes of five to twelve marks, placed with 3 px of noise, have the map that the library finds', async () => {
  const { fits, largest } = await compared(SEED + 1, (scene) => 5 + (scene % 8));
  // Both end at the least sum of squared pixels; the library stops after ten steps, some 1e-6 px before it.
  within(largest, 0, 1e-4, `seed ${String(SEED + 1)}, px`);
  expect(fits).toBeGreaterThan(0.95 * SCENES);
});
