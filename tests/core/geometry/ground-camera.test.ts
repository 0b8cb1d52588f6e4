import { describe, expect, it } from 'vitest';
import { fitGroundCamera } from '../../../core/geometry/fit-ground-camera.ts';
import type { GroundCameraFit } from '../../../core/geometry/fit-ground-camera.ts';
import { fitHomography } from '../../../core/geometry/fit-homography.ts';
import { numbersOf, pinholeOfHomography, yawOf } from '../../../core/geometry/ground-camera.ts';
import type { CameraNumbers, PictureSize } from '../../../core/geometry/ground-camera.ts';
import type { GroundMark } from '../../../core/geometry/ground-marks.ts';
import { toGround } from '../../../core/geometry/homography.ts';
import type { Homography } from '../../../core/geometry/homography.ts';
import { entry, invert } from '../../../core/geometry/linear.ts';
import { wrapAngle } from '../../../core/geometry/angle.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import { HANDEDNESS, VIEWS } from '../../../core/model/words.ts';
import { cameraAimedAt } from '../../../core/scene/camera.ts';
import { vector } from '../../../core/scene/vector.ts';
import { demoGround, placedAgain, randomGround, rolled, seenBy, trueNumbers } from '../../support/ground-scenes.ts';
import { within } from '../../support/within.ts';

const SEED = 47;
const NAMES = ['focal', 'x', 'y', 'height', 'distance', 'heading', 'pitch', 'roll'] as const;
const ANGLES: readonly string[] = ['heading', 'pitch', 'roll'];

function fitted(marks: readonly GroundMark[], picture: PictureSize, placing = 3): GroundCameraFit {
  const fit = fitGroundCamera(marks, picture, placing);
  if (fit.state === 'refused') throw new Error(`seed ${String(SEED)}: refused, ${fit.reason}`);
  return fit;
}

function off(found: CameraNumbers, truth: CameraNumbers, name: keyof CameraNumbers): number {
  const by = found[name] - truth[name];
  return ANGLES.includes(name) ? wrapAngle(by) : by;
}

describe('the camera over the ground marks', () => {
  it('is the one that took the picture: demo, both views, both hands, level and rolled', () => {
    for (const view of VIEWS)
      for (const hand of HANDEDNESS)
        for (const roll of [0, 0.1, -0.2]) {
          const { camera, picture, marks } = demoGround(view, hand);
          const turned = rolled(camera, roll);
          const found = fitted(
            seenBy(
              turned,
              hand,
              marks.map(({ ground }) => ground),
            ),
            picture,
          );
          const truth = trueNumbers(turned, hand);
          within(truth.roll, roll, 1e-12, 'the scene itself');
          // Pixels are right to 1e-13, and a millimetre of distance is some 0.01 px: 1e-6 mm is a wide margin.
          for (const name of NAMES) within(off(found.camera, truth, name), 0, 1e-6, `${view} ${hand} ${name}`);
          expect(found.handedness).toBe(hand);
          within(found.rms, 0, 1e-8, 'rms');
        }
  });

  it('is found wherever it stands, whoever plays', () => {
    const numbers = seeded(SEED);
    for (let i = 0; i < 200; i += 1) {
      const { camera, picture, marks, handedness } = randomGround(numbers, 4 + (i % 4));
      const truth = trueNumbers(camera, handedness);
      const found = fitted(marks, picture, 0.1);
      for (const name of NAMES) within(off(found.camera, truth, name), 0, 1e-5, `scene ${String(i)} ${name}`);
      expect(found.handedness).toBe(handedness);
    }
  });

  it('is found by the map alone, where nothing was misplaced', () => {
    const numbers = seeded(SEED);
    for (let i = 0; i < 100; i += 1) {
      const { camera, picture, marks, handedness } = randomGround(numbers, 4);
      const map = fitHomography(marks);
      const found = map.state === 'fitted' ? pinholeOfHomography(map.homography, picture) : 'no-focal';
      if (typeof found === 'string') throw new Error(found);
      const truth = trueNumbers(camera, handedness);
      for (const name of NAMES) within(off(numbersOf(found), truth, name), 0, 1e-4, `scene ${String(i)} ${name}`);
    }
  });

  it('scatters over 2,000 markings as its uncertainties say, and so does its map', () => {
    const numbers = seeded(SEED);
    const times = 2000;
    const { picture, marks } = demoGround('face-on', 'right');
    const exact = fitted(marks, picture);
    const squares = new Map<string, number>();
    const place = { x: 900, y: 800 };
    let strain = 0;
    for (let time = 0; time < times; time += 1) {
      const again = fitted(placedAgain(marks, 3, numbers), picture);
      for (const name of NAMES)
        squares.set(
          name,
          (squares.get(name) ?? 0) + (off(again.camera, exact.camera, name) / exact.uncertainty[name]) ** 2,
        );
      const ground = toGround(again.homography, place);
      const wanted = toGround(exact.homography, place);
      squares.set('map', (squares.get('map') ?? 0) + ((ground?.x ?? NaN) - (wanted?.x ?? NaN)) ** 2);
      strain += again.strain ** 2;
    }
    // Variances of 2,000 are known to 3.2 %: four times that, and 2 % because 4 % of distance are no longer quite linear.
    for (const name of NAMES) within((squares.get(name) ?? NaN) / times, 1, 0.147, `seed ${String(SEED)}, ${name}`);
    within(strain / times, 1, 0.147, `seed ${String(SEED)}, strain`);
    const slopes = exact.spread.map((matrix) => {
      const at = (by: number): number => toGround(moved(exact.homography, matrix, by), place)?.x ?? Number.NaN;
      return (at(1e-3) - at(-1e-3)) / 2e-3;
    });
    within(
      (squares.get('map') ?? NaN) / times / (3 * Math.hypot(...slopes)) ** 2,
      1,
      0.147,
      `seed ${String(SEED)}, map`,
    );
    expect(exact.spread).toHaveLength(7);
  }, 60_000);

  it('is less certain by as much as the placing is', () => {
    const { picture, marks } = demoGround('down-the-line', 'left');
    const [one, three] = [fitted(marks, picture, 1), fitted(marks, picture, 3)];
    for (const name of NAMES) within(three.uncertainty[name] / one.uncertainty[name], 3, 1e-9, name);
  });

  it('has the turn from its view that it was set up with: + toward the ball down the line, + toward the target face on', () => {
    const { picture } = demoGround('face-on', 'right');
    const ground = [
      { x: -700, y: -400 },
      { x: 800, y: -400 },
      { x: 800, y: 1100 },
      { x: -700, y: 1100 },
    ];
    const look = (from: [number, number], to: [number, number]) =>
      cameraAimedAt(
        { from: vector(from[0], 1.2, from[1]), to: vector(to[0], 0.9, to[1]), focal: 2000 },
        picture.width,
        picture.height,
      );
    const line = fitted(seenBy(look([-6, 0.3], [0, 0.9]), 'right', ground), picture);
    within(yawOf(line.camera.heading, 'down-the-line'), Math.atan2(0.6, 6), 1e-9);
    const front = fitted(seenBy(look([0, 6], [0.5, 0]), 'right', ground), picture);
    within(yawOf(front.camera.heading, 'face-on'), Math.atan2(0.5, 6), 1e-9);
    // 0.3 m down over 6.03 and 6.02 m.
    within(line.camera.pitch, -Math.atan2(0.3, Math.hypot(0.6, 6)), 1e-9);
    within(front.camera.pitch, -Math.atan2(0.3, Math.hypot(0.5, 6)), 1e-9);
    within(yawOf(Math.PI, 'face-on'), -Math.PI / 2, 1e-12);
  });

  it('stands on the other side of the mirror when the marks are named for the other hand', () => {
    const { picture, marks } = demoGround('face-on', 'right');
    const swapped = marks.map(({ ground, picture: seen }) => ({
      ground: { x: -ground.x, y: ground.y },
      picture: seen,
    }));
    const found = fitted(swapped, picture);
    expect(found.handedness).toBe('left');
    within(found.camera.height, 950, 1e-6);
  });
});

describe('an axis beside the middle of the picture', () => {
  const { picture, marks } = demoGround('face-on', 'right');
  const exact = fitted(marks, picture).camera;
  const cut = (x: number, y: number) =>
    fitted(
      marks.map(({ ground, picture: seen }) => ({ ground, picture: { x: seen.x + x, y: seen.y + y } })),
      picture,
    );

  it('turns the camera by its angle and moves little else: a hundredth of the picture costs a third of a degree', () => {
    const aside = cut(14.4, 0).camera;
    // Picture right is the target's side: marks 14.4 px farther right are a camera that looks as much farther from it.
    within(wrapAngle(aside.heading - exact.heading), -14.4 / 2750, 2e-4);
    within(aside.focal / exact.focal, 1, 0.002);
    within(aside.height / exact.height, 1, 0.002);
    within(aside.distance / exact.distance, 1, 0.002);
    const below = cut(0, 10.8).camera;
    within(below.pitch - exact.pitch, 10.8 / 2750, 2e-4);
    within(below.focal / exact.focal, 1, 0.002);
    within(below.height / exact.height, 1, 0.005);
    within(below.distance / exact.distance, 1, 0.005);
  });

  it('is noticed when marks are many and placed well', () => {
    expect(cut(14.4, 0).strain).toBeLessThan(3);
    const camera = demoGround('face-on', 'right').camera;
    const grid = seenBy(
      camera,
      'right',
      [-700, 0, 800].flatMap((x) => [-400, 400, 1100].map((y) => ({ x, y }))),
    );
    const moved300 = grid.map(({ ground, picture: seen }) => ({ ground, picture: { x: seen.x + 300, y: seen.y } }));
    expect(fitted(grid, picture, 0.3).strain).toBeLessThan(1e-6);
    expect(fitted(moved300, picture, 0.3).strain).toBeGreaterThan(3);
  });
});

describe('there is no camera, and it says why:', () => {
  const picture = { width: 1440, height: 1080 };
  const place = (map: (x: number, y: number) => [number, number]): GroundMark[] =>
    [
      [-700, -400],
      [800, -400],
      [800, 1100],
      [-700, 1100],
    ].map(([x = 0, y = 0]) => {
      const [u, v] = map(x, y);
      return { ground: { x, y }, picture: { x: u, y: v } };
    });

  it('straight from above, exactly and as placed by hand', () => {
    const above = place((x, y) => [720 + 0.4 * x, 540 + 0.4 * y]);
    expect(fitGroundCamera(above, picture, 3)).toMatchObject({ state: 'refused' });
    const numbers = seeded(SEED);
    const reasons = new Set<string>();
    for (let time = 0; time < 100; time += 1) {
      const found = fitGroundCamera(placedAgain(above, 3, numbers), picture, 3);
      reasons.add(found.state === 'refused' ? found.reason : found.state);
    }
    expect([...reasons].filter((reason) => !['no-horizon', 'no-focal', 'focal-unsure'].includes(reason))).toEqual([]);
  });

  it('from far away through a long lens, where perspective is lost in the placing', () => {
    const far = cameraAimedAt({ from: vector(0, 4, 60), to: vector(0, 0.5, 0), focal: 24_000 }, 1440, 1080);
    const marks = seenBy(
      far,
      'right',
      place((x, y) => [x, y]).map(({ ground }) => ground),
    );
    expect(fitGroundCamera(marks, picture, 3)).toMatchObject({ state: 'refused', reason: 'focal-unsure' });
    // The same picture with placing far better than a hand's has an answer.
    within(fitted(marks, picture, 0.01).camera.height, 4000, 1e-3);
  });

  it('a picture that no such camera takes', () => {
    // Depth grows downward in the picture, along y, and by far more than x and y are scaled.
    const odd = place((x, y) => {
      const depth = 1 + 3e-4 * y;
      return [720 + (0.02 * x) / depth, 540 + (400 + 0.3 * y) / depth];
    });
    expect(fitGroundCamera(odd, picture, 3)).toEqual({ state: 'refused', reason: 'no-focal', marks: [] });
  });

  it('marks that give no map', () => {
    const marks = demoGround('face-on', 'right').marks;
    expect(fitGroundCamera(marks.slice(1), picture, 3)).toEqual({
      state: 'refused',
      reason: 'too-few',
      marks: [0, 1, 2],
    });
  });

  it('and sizes that are none are a mistake of ours', () => {
    const marks = demoGround('face-on', 'right').marks;
    expect(() => fitGroundCamera(marks, { width: 0, height: 1080 }, 3)).toThrow('size');
    expect(() => fitGroundCamera(marks, picture, 0)).toThrow('placing');
    expect(() => fitGroundCamera(marks, picture, Number.NaN)).toThrow('placing');
  });
});

/** The map `by` standard deviations along one of its matrices. */
function moved(homography: Homography, matrix: readonly (readonly number[])[], by: number): Homography {
  const groundToPicture = homography.groundToPicture.map((row, i) =>
    row.map((value, j) => value + by * entry(matrix, i, j)),
  );
  const pictureToGround = invert(groundToPicture);
  if (pictureToGround === null) throw new Error('the map cannot be undone');
  return { groundToPicture, pictureToGround };
}
