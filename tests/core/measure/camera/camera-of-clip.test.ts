import { describe, expect, it, test } from 'vitest';
import { sideOf } from '../../../../core/geometry/point.ts';
import { cameraOfClip, groundMarksOf } from '../../../../core/measure/camera/camera-of-clip.ts';
import type { CameraPlace } from '../../../../core/measure/camera/camera-of-clip.ts';
import { cameraInWords } from '../../../../core/measure/words/camera-words.ts';
import { ASSUMED_PLACING } from '../../../../core/measure/uncertainty/placing.ts';
import { seeded } from '../../../../core/measure/uncertainty/seeded.ts';
import type { GroundMark } from '../../../../core/geometry/ground-marks.ts';
import type { EdgeShape, GroundShape, LineShape, PicturePoint, Shape } from '../../../../core/model/mark.ts';
import type { MarkedClip } from '../../../../core/model/swing.ts';
import type { Handedness, View } from '../../../../core/model/words.ts';
import { VIEWS } from '../../../../core/model/words.ts';
import { demoGround, placedAgain, rolled, seenBy, trueNumbers } from '../../../support/ground-scenes.ts';
import { within } from '../../../support/within.ts';

const DEGREE = Math.PI / 180;
type Places = GroundShape['places'];
const HANDS: readonly Handedness[] = ['right', 'left'];

function clipOf(view: View, shapes: readonly Shape[]): MarkedClip {
  return {
    view,
    width: 1440,
    height: 1080,
    timebase: { num: 1, den: 15360 },
    nominalRate: null,
    captureRate: null,
    checkpoints: {},
    marks: [{ frame: { index: 0, pts: 0 }, points: {}, shapes }],
  };
}

function groundShape(marks: readonly GroundMark[]): GroundShape {
  const places = marks.map(({ ground, picture }) => ({ ...picture, target: ground.x, ball: ground.y }));
  return { kind: 'ground', id: 'marks', layout: 'mat', places };
}

function placeOf(view: View, handedness: Handedness, shapes: readonly Shape[]): CameraPlace {
  const { ground } = cameraOfClip(clipOf(view, shapes), handedness, ASSUMED_PLACING);
  if (ground?.state !== 'told') throw new Error(`no camera: ${ground?.reason ?? 'no marks'}`);
  return ground;
}

describe('the camera, from the ground marks of the invented scene', () => {
  const SEED = 4810;
  it.each(VIEWS)('%s: stands, looks and leans as it truly does, for either hand', (view) => {
    for (const handedness of HANDS) {
      const scene = demoGround(view, handedness);
      const camera = rolled(scene.camera, 2 * DEGREE);
      const marks = seenBy(
        camera,
        handedness,
        scene.marks.map(({ ground }) => ground),
      );
      const place = placeOf(view, handedness, [groundShape(marks)]);
      const truth = trueNumbers(camera, handedness);
      const middle = { x: 50, y: 350 };
      within(place.height.value, truth.height / 1000, 1e-6);
      within(place.distance.value, Math.hypot(truth.x - middle.x, truth.y - middle.y) / 1000, 1e-6);
      within(place.yaw.value, 0, 1e-8);
      within(place.pitch.value, truth.pitch, 1e-8);
      within(place.roll.value, truth.roll, 1e-8);
      expect(place).toMatchObject({ isMixedUp: false, isStrained: false });
    }
  });

  it(`holds the truth in its ± in 95 of 100 placings (seed ${String(SEED)})`, () => {
    const numbers = seeded(SEED);
    const trials = 200;
    const scene = demoGround('down-the-line', 'right');
    const truth = { height: 0.95, distance: Math.hypot(6.25, 0.03), yaw: 0, pitch: 0, roll: 0 };
    const held = { height: 0, distance: 0, yaw: 0, pitch: 0, roll: 0 };
    for (let trial = 0; trial < trials; trial += 1) {
      const place = placeOf('down-the-line', 'right', [groundShape(placedAgain(scene.marks, 3, numbers))]);
      for (const name of ['height', 'distance', 'yaw', 'pitch', 'roll'] as const)
        if (Math.abs(place[name].value - truth[name]) <= 1.96 * place[name].u) held[name] += 1;
    }
    // Four standard errors of the count.
    const slack = 4 * Math.sqrt((0.95 * 0.05) / trials);
    for (const [name, count] of Object.entries(held)) expect(count / trials, name).toBeGreaterThan(0.95 - slack);
  });

  it('says left and right as one sees it from behind the camera', () => {
    for (const handedness of HANDS) {
      const scene = demoGround('down-the-line', handedness);
      const [right, , away] = scene.camera.turn;
      const by = 6 * DEGREE;
      const turn = (one: typeof right, other: typeof right) => ({
        x: Math.cos(by) * one.x + Math.sin(by) * other.x,
        y: Math.cos(by) * one.y + Math.sin(by) * other.y,
        z: Math.cos(by) * one.z + Math.sin(by) * other.z,
      });
      const backward = { x: -away.x, y: -away.y, z: -away.z };
      const camera = {
        ...scene.camera,
        turn: [turn(right, backward), scene.camera.turn[1], turn(away, right)] as const,
      };
      const marks = seenBy(
        camera,
        handedness,
        scene.marks.map(({ ground }) => ground),
      );
      within(placeOf('down-the-line', handedness, [groundShape(marks)]).yaw.value, by, 1e-8, handedness);
    }
  });

  it('sees that marks are mixed up, and shows no numbers', () => {
    const scene = demoGround('down-the-line', 'right');
    const mirrored = scene.marks.map(({ ground, picture }) => ({
      ground: { x: ground.x, y: 700 - ground.y },
      picture,
    }));
    const clip = clipOf('down-the-line', [groundShape(mirrored)]);
    const report = cameraOfClip(clip, 'right', ASSUMED_PLACING);
    expect(report.ground).toMatchObject({ state: 'told', isMixedUp: true });
    const words = cameraInWords(report, 'down-the-line', 'mat');
    expect(words.ground).toHaveLength(1);
    expect(words.ground[0]?.text).toMatch(/opposite handedness/);
  });

  it.each([
    ['too few', (marks: Places) => marks.slice(0, 3), /too few/],
    ['same place', (marks: Places) => [...marks.slice(0, 3), ...marks.slice(0, 1)], /share one place/],
    ['on a line', (marks: Places) => marks.map((mark) => ({ ...mark, y: 900 })), /in one line/],
    [
      'over the horizon',
      (marks: Places) => marks.map((mark, i) => ({ ...mark, ...(i === 0 ? { y: 200 } : {}) })),
      /horizon/,
    ],
  ] as const)('says in one sentence why it cannot: %s', (_, spoil, words) => {
    const shape = groundShape(demoGround('down-the-line', 'right').marks);
    const spoilt = { ...shape, places: spoil(shape.places) };
    const report = cameraOfClip(clipOf('down-the-line', [spoilt]), 'right', ASSUMED_PLACING);
    const { ground } = cameraInWords(report, 'down-the-line', 'mat');
    expect(ground).toHaveLength(1);
    expect(ground[0]?.text).toMatch(words);
    expect(ground[0]?.text.match(/[.]( |$)/g)?.length).toBeLessThanOrEqual(2);
  });
});

test('the residuals of ground marks stand in the order of the marks, and the worst is the one that was spoilt', () => {
  const scene = demoGround('face-on', 'right');
  const more = [
    { x: 300, y: 300 },
    { x: -200, y: 500 },
    { x: 100, y: 900 },
  ];
  const marks = seenBy(scene.camera, 'right', [...scene.marks.map(({ ground }) => ground), ...more]);
  const spoilt = marks.map((mark, i) =>
    i === 5 ? { ...mark, picture: { x: mark.picture.x + 25, y: mark.picture.y } } : mark,
  );
  const found = groundMarksOf(clipOf('face-on', [groundShape(spoilt)]), ASSUMED_PLACING);
  if (found === null || 'reason' in found) throw new Error('no map');
  const { residuals } = found.fit;
  expect(residuals).toHaveLength(7);
  expect(residuals.indexOf(Math.max(...residuals))).toBe(5);
  expect(groundMarksOf(clipOf('face-on', []), ASSUMED_PLACING)).toBeNull();
});

describe('the other marks of a camera', () => {
  const line = (role: LineShape['role'], a: PicturePoint, b: PicturePoint): LineShape => ({
    kind: 'line',
    id: `${String(role)} ${String(a.x)}`,
    a,
    b,
    role,
    lengthMm: role === 'yardstick' ? 1000 : null,
  });

  it('a plumb tells which way the vertical leans in the picture, the same for either hand', () => {
    const plumb = line('plumb', { x: 900, y: 100 }, { x: 900 - 800 * Math.tan(2 * DEGREE), y: 900 });
    for (const handedness of HANDS) {
      const { upright } = cameraOfClip(clipOf('face-on', [plumb]), handedness, ASSUMED_PLACING);
      within(upright?.value ?? Number.NaN, 2 * DEGREE, 1e-9, handedness);
      expect(upright?.count).toBe(1);
    }
  });

  it('known lengths tell the scale of the plane in which they lie, and of no other', () => {
    const one = line('yardstick', { x: 100, y: 900 }, { x: 500, y: 900 });
    const other = line('yardstick', { x: 100, y: 950 }, { x: 500, y: 950 });
    const { scales } = cameraOfClip(clipOf('face-on', [one, other]), 'right', ASSUMED_PLACING);
    expect(scales).toHaveLength(1);
    expect(scales[0]).toMatchObject({ plane: 'player', count: 2 });
    within(scales[0]?.value ?? Number.NaN, 0.25, 1e-12);
    const ball = cameraOfClip(clipOf('face-on', [{ ...one, plane: 'ball' }]), 'right', ASSUMED_PLACING);
    expect(ball.scales.map(({ plane }) => plane)).toEqual(['ball']);
  });

  it('a lens that draws the corners in by 24 px is told so, within its ±', () => {
    const half = Math.hypot(720, 540);
    // At the corner r = 1, and it is seen at r (1 + k1).
    const k1 = -24 / half;
    const bent = ({ x, y }: PicturePoint): PicturePoint => {
      const s = ((x - 720) ** 2 + (y - 540) ** 2) / half ** 2;
      return { x: 720 + (x - 720) * (1 + k1 * s), y: 540 + (y - 540) * (1 + k1 * s) };
    };
    const edge = (id: string, a: PicturePoint, b: PicturePoint): EdgeShape => ({
      kind: 'edge',
      id,
      places: [0, 0.2, 0.4, 0.6, 0.8, 1].map((t) => bent({ x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) })),
    });
    const edges = [
      edge('top', { x: 60, y: 60 }, { x: 1380, y: 80 }),
      edge('left', { x: 80, y: 80 }, { x: 60, y: 1000 }),
    ];
    const { lens } = cameraOfClip(clipOf('face-on', edges), 'right', { known: {}, assumed: 1 });
    if (lens?.state !== 'told') throw new Error('no lens');
    within(lens.corner.value, 24, 1e-6);
    expect(lens.corner.u).toBeGreaterThan(0);
    const straight = [
      {
        ...edge('top', { x: 60, y: 60 }, { x: 1380, y: 80 }),
        places: [
          { x: 60, y: 60 },
          { x: 700, y: 60 },
          { x: 1300, y: 60 },
        ],
      },
    ];
    expect(cameraOfClip(clipOf('face-on', straight), 'right', ASSUMED_PLACING).lens).toMatchObject({
      state: 'not-told',
      reason: 'too-few-places',
    });
  });

  it('without any there is nothing to say', () => {
    const report = cameraOfClip(clipOf('face-on', []), 'right', ASSUMED_PLACING);
    expect(report).toEqual({ ground: null, lens: null, upright: null, scales: [] });
    expect(cameraInWords(report, 'face-on', 'mat').summary).toBe('nothing marked yet');
  });
});

test('sentences say which way, how far and what it does, in figures that their ± deserves', () => {
  const yaw = { value: -6.04 * DEGREE, u: 0.5 * DEGREE };
  const place: CameraPlace = {
    state: 'told',
    height: { value: 0.9512, u: 0.02 },
    distance: { value: 6.214, u: 0.1 },
    yaw,
    pitch: { value: -1 * DEGREE, u: 0.3 * DEGREE },
    roll: { value: 0.4 * DEGREE, u: 0.4 * DEGREE },
    isMixedUp: false,
    isStrained: false,
    residuals: [],
  };
  const report = { ground: place, lens: null, upright: null, scales: [] };
  const words = cameraInWords(report, 'down-the-line', 'mat');
  expect(words.summary).toBe('pointed 6.0° ± 1.0° to the left');
  expect(words.ground.map(({ text }) => text)).toEqual([
    'The lens stood 0.95 ± 0.04 m above the ground, 6.21 ± 0.20 m from the middle of the marks.',
    'The camera pointed 6.0° ± 1.0° to the left of the target line.',
    'Turned so far, a back incline of 40° looks about 39.84° and a shaft incline of 60° looks about 60.14°.',
    'It pointed 1.0° ± 0.6° down; the true vertical leans 0.4° ± 0.8° to the right in the picture.',
  ]);
  expect(sideOf('right')).toBe(1);
  expect(cameraInWords({ ...report, ground: { ...place, isStrained: true } }, 'face-on', 'mat').ground[0]?.warns).toBe(
    true,
  );
});

test('what would be written as nothing is said in words, with its ±', () => {
  const none = { value: -0.001 * DEGREE, u: 0.25 * DEGREE };
  const place: CameraPlace = {
    state: 'told',
    height: { value: 1, u: 0.05 },
    distance: { value: 6, u: 0.5 },
    yaw: none,
    pitch: none,
    roll: none,
    isMixedUp: false,
    isStrained: false,
    residuals: [],
  };
  const words = cameraInWords(
    { ground: place, lens: null, upright: { ...none, count: 2 }, scales: [] },
    'face-on',
    'mat',
  );
  expect(words.summary).toBe('straight ± 0.5°, upright ± 0.5°');
  expect(words.ground.slice(1).map(({ text }) => text)).toEqual([
    'The camera pointed along the line square to the target line, ± 0.5°: angles look as they are.',
    'It pointed level, ± 0.5°; the true vertical stands upright, ± 0.5°, in the picture.',
  ]);
  expect(words.upright[0]?.text).toBe(
    'The true vertical stands upright, ± 0.5°, in the picture, from 2 plumbs and levels; angles are measured from it.',
  );
});
