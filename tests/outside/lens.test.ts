import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fitLens } from '../../core/geometry/fit-lens.ts';
import { distort, straighten } from '../../core/geometry/lens.ts';
import type { Lens } from '../../core/geometry/lens.ts';
import { seeded } from '../../core/measure/uncertainty/seeded.ts';
import { visionLibrary } from '../support/vision-library.ts';
import type { VisionLibrary } from '../support/vision-library.ts';
import { within } from '../support/within.ts';

/**
 * Coefficients: OpenCV's public sample samples/data/left_intrinsics.yml, pictures of 640 x 480. The formula (Brown and
 * Conrady's) is from memory; the worked places were computed by it independently.
 */
const SAMPLE: Lens = {
  focal: 535.91573396163199,
  centre: { x: 342.28315473308373, y: 235.57082909788173 },
  k1: -0.26637260909660682,
  k2: -0.038588898922304653,
  p1: 0.0017831947042852964,
  p2: -0.00028122100441115472,
  k3: 0.23839153080878486,
};

describe('the lens of a published calibration', () => {
  // Each to half of its last digit.
  const close = 5e-5;

  it.each([
    [100, 100, 116.9941, 109.7882],
    [600, 400, 578.8891, 386.873],
    [0, 0, 42.1793, 29.6661],
    [SAMPLE.centre.x, SAMPLE.centre.y, SAMPLE.centre.x, SAMPLE.centre.y],
  ])('shows the ideal place (%d, %d) at (%d, %d)', (x, y, seenX, seenY) => {
    const seen = distort(SAMPLE, { x, y });
    within(seen?.x ?? Number.NaN, seenX, close);
    within(seen?.y ?? Number.NaN, seenY, close);
  });

  it.each([
    [100, 100, 78.476, 87.5953],
    [600, 400, 627.4907, 417.0766],
  ])('what it shows at (%d, %d) is ideally at (%d, %d)', (x, y, idealX, idealY) => {
    const ideal = straighten(SAMPLE, { x, y });
    within(ideal?.x ?? Number.NaN, idealX, close);
    within(ideal?.y ?? Number.NaN, idealY, close);
  });

  it('misplaces (100, 100) by 19.6 px', () => {
    const seen = distort(SAMPLE, { x: 100, y: 100 });
    within(Math.hypot((seen?.x ?? Number.NaN) - 100, (seen?.y ?? Number.NaN) - 100), 19.6, 0.05);
  });
});

/** A general vision library, 4.12: its forward map, and the table by which it straightens pictures. */
describe('against a general vision library', () => {
  const SEED = 20261;
  const SCENES = 1000;
  const PLACES = 20;
  let cv: VisionLibrary;
  const mats: { delete(): void }[] = [];
  const kept = <M extends { delete(): void }>(mat: M): M => {
    mats.push(mat);
    return mat;
  };

  beforeAll(async () => {
    cv = await visionLibrary();
  });
  afterAll(() => {
    for (const mat of mats) mat.delete();
  });

  const matrixOf = ({ focal, centre }: Lens) => [focal, 0, centre.x, 0, focal, centre.y, 0, 0, 1];
  const coefficientsOf = ({ k1, k2, p1, p2, k3 }: Lens) => [k1, k2, p1, p2, k3];

  it(`shows places where that shows them, and takes them back: ${String(SCENES)} lenses (seed ${String(SEED)})`, () => {
    const numbers = seeded(SEED);
    const about = (size: number) => size * (2 * numbers.uniform() - 1);
    const still = [kept(cv.Mat.zeros(3, 1, cv.CV_64F)), kept(cv.Mat.zeros(3, 1, cv.CV_64F))] as const;
    const [out, jacobian] = [kept(new cv.Mat()), kept(new cv.Mat())];
    let [compared, farthest, farthestBack] = [0, 0, 0];
    for (let scene = 0; scene < SCENES; scene += 1) {
      const focal = 600 + 1500 * numbers.uniform();
      const lens = {
        focal,
        centre: { x: 960 + about(40), y: 540 + about(40) },
        ...{ k1: about(0.3), k2: about(0.1), k3: about(0.05), p1: about(0.005), p2: about(0.005) },
      };
      const ideal = Array.from({ length: PLACES }, () => ({
        x: 1920 * numbers.uniform(),
        y: 1080 * numbers.uniform(),
      }));
      const rays = ideal.flatMap(({ x, y }) => [(x - lens.centre.x) / focal, (y - lens.centre.y) / focal, 1]);
      const inputs = [
        cv.matFromArray(PLACES, 1, cv.CV_64FC3, rays),
        cv.matFromArray(3, 3, cv.CV_64F, matrixOf(lens)),
        cv.matFromArray(5, 1, cv.CV_64F, coefficientsOf(lens)),
      ] as const;
      cv.projectPoints(inputs[0], ...still, inputs[1], inputs[2], out, jacobian, 0);
      const theirs = Array.from<number>(out.data64F);
      for (const mat of inputs) mat.delete();
      for (const [i, place] of ideal.entries()) {
        const seen = distort(lens, place);
        // Beyond the fold that library goes on with the formula; ours says nothing.
        if (seen === null) continue;
        const [x, y] = [theirs[2 * i] ?? Number.NaN, theirs[2 * i + 1] ?? Number.NaN];
        farthest = Math.max(farthest, Math.hypot(seen.x - x, seen.y - y));
        const back = straighten(lens, { x, y });
        if (back === null) throw new Error(`seed ${String(SEED)}, scene ${String(scene)}: not taken back`);
        const again = distort(lens, back);
        farthestBack = Math.max(farthestBack, Math.hypot((again?.x ?? Number.NaN) - x, (again?.y ?? Number.NaN) - y));
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(0.95 * SCENES * PLACES);
    // The same formula in doubles on both sides: rounding of some 2,000 px.
    within(farthest, 0, 1e-10);
    within(farthestBack, 0, 1e-9);
  });

  it(`edges that it bends tell us its lens: 200 lenses (seed ${String(SEED + 1)})`, () => {
    const numbers = seeded(SEED + 1);
    const about = (size: number) => size * (2 * numbers.uniform() - 1);
    const none = kept(cv.Mat.zeros(3, 1, cv.CV_64F));
    const [out, jacobian] = [kept(new cv.Mat()), kept(new cv.Mat())];
    const [focal, centre] = [Math.hypot(960, 540), { x: 960, y: 540 }];
    for (let scene = 0; scene < 200; scene += 1) {
      const bent = { focal, centre, k1: -0.12 + about(0.1), k2: 0.05 + about(0.02), p1: 0, p2: 0, k3: 0 };
      // Each side of the picture has an edge along it, 100 to 300 px in.
      const sides = [0, 1, 2, 3].map((side) => {
        const [from, to] = [100 + 200 * numbers.uniform(), 100 + 200 * numbers.uniform()];
        return [0, 1, 2, 3, 4, 5].map((i) => {
          const [along, across] = [0.05 + 0.18 * i, from + ((to - from) * i) / 5];
          const [x, y] = side < 2 ? [1920 * along, across] : [across, 1080 * along];
          return [side === 3 ? 1920 - x : x, side === 1 ? 1080 - y : y] as const;
        });
      });
      const rays = sides.flat().flatMap(([x, y]) => [(x - 960) / focal, (y - 540) / focal, 1]);
      const inputs = [
        cv.matFromArray(24, 1, cv.CV_64FC3, rays),
        cv.matFromArray(3, 3, cv.CV_64F, matrixOf(bent)),
        cv.matFromArray(5, 1, cv.CV_64F, coefficientsOf(bent)),
      ] as const;
      cv.projectPoints(inputs[0], none, none, inputs[1], inputs[2], out, jacobian, 0);
      const theirs = Array.from<number>(out.data64F);
      for (const mat of inputs) mat.delete();
      const edges = sides.map((edge, side) =>
        edge.map((_, i) => ({
          x: theirs[2 * (6 * side + i)] ?? Number.NaN,
          y: theirs[2 * (6 * side + i) + 1] ?? Number.NaN,
        })),
      );
      const fit = fitLens(edges, { width: 1920, height: 1080 }, 0.05);
      // Places without error: what is left is where the steps of the fit end.
      within(fit.estimate?.lens.k1 ?? Number.NaN, bent.k1, 1e-7, `scene ${String(scene)}`);
      within(fit.estimate?.lens.k2 ?? Number.NaN, bent.k2, 1e-7, `scene ${String(scene)}`);
    }
  });

  it("straightens by the same table, to the library's single precision", () => {
    const [camera, coefficients] = [
      kept(cv.matFromArray(3, 3, cv.CV_64F, matrixOf(SAMPLE))),
      kept(cv.matFromArray(5, 1, cv.CV_64F, coefficientsOf(SAMPLE))),
    ];
    const [turn, xs, ys] = [kept(cv.Mat.eye(3, 3, cv.CV_64F)), kept(new cv.Mat()), kept(new cv.Mat())];
    cv.initUndistortRectifyMap(camera, coefficients, turn, camera, new cv.Size(640, 480), cv.CV_32FC1, xs, ys);
    const [tableX, tableY] = [Array.from<number>(xs.data32F), Array.from<number>(ys.data32F)];
    expect(tableX).toHaveLength(640 * 480);
    for (let y = 0; y < 480; y += 7)
      for (let x = 0; x < 640; x += 7) {
        // The table names, for each ideal place, the place in the picture; singles of up to 640 are exact to 3e-5.
        const [seenX, seenY] = [tableX[640 * y + x] ?? Number.NaN, tableY[640 * y + x] ?? Number.NaN];
        const ideal = straighten(SAMPLE, { x: seenX, y: seenY });
        within(ideal?.x ?? Number.NaN, x, 2e-4);
        within(ideal?.y ?? Number.NaN, y, 2e-4);
      }
  });
});
