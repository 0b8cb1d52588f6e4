import { expect, test } from 'vitest';
import { DEMO_LESSONS, demoScenario } from '../../../core/demo/demo-scenario.ts';
import { isImplausible } from '../../../core/measure/doubts/plausible.ts';
import { questionsAbout } from '../../../core/measure/words/question-words.ts';
import { questionsOf } from '../../../core/measure/doubts/questions.ts';
import { readSwing } from '../../../core/measure/readings/read-swing.ts';
import { BODY_POINTS, BODY_POINT_INFO } from '../../../core/model/body-points.ts';
import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { LineShape, PicturePoint } from '../../../core/model/mark.ts';
import type { MarkedSwing } from '../../../core/model/swing.ts';
import { CHECKPOINTS, HANDEDNESS, VIEWS } from '../../../core/model/words.ts';
import type { Handedness } from '../../../core/model/words.ts';
import { checkpointFrames } from '../../../core/scene/checkpoint-frames.ts';
import { truthOf } from '../../../core/scene/truth.ts';

/** The true swing of a demo lesson, every body point named by `nameOf` the point that it is. */
function swingOf(lesson: 'then' | 'now', hand: Handedness, nameOf: (point: BodyPointId) => BodyPointId): MarkedSwing {
  const scenario = demoScenario(lesson, hand);
  const frames = checkpointFrames(scenario);
  const ref = (index: number) => ({ index, pts: index, ticks: 1 });
  return {
    ...{ studentFirstName: 'Robin', date: '2026-05-12', club: '7 iron', handedness: hand },
    clips: VIEWS.map((view) => ({
      ...{ view, ...scenario.picture, timebase: { num: 1, den: 120 }, nominalRate: { num: 120, den: 1 } },
      captureRate: { framesPerSecond: { num: 120, den: 1 }, confirmed: true },
      checkpoints: Object.fromEntries(CHECKPOINTS.map((name) => [name, ref(frames[name])])),
      marks: CHECKPOINTS.map((name) => {
        const truth = truthOf(scenario, view, frames[name]);
        const points = BODY_POINTS.filter((point) => BODY_POINT_INFO[point].views.includes(view));
        return {
          frame: ref(frames[name]),
          points: Object.fromEntries(points.map((point) => [nameOf(point), { ...truth[point], hidden: false }])),
          shapes: [],
        };
      }),
    })),
  };
}

const asked = (swing: MarkedSwing) =>
  readSwing(swing).flatMap((reading) => (reading.state === 'measured' && isImplausible(reading) ? [reading.id] : []));

test.each(DEMO_LESSONS.flatMap((lesson) => HANDEDNESS.map((hand) => [lesson, hand] as const)))(
  'nothing is asked about the true swing of %s, %s-handed',
  (lesson, hand) => {
    expect(asked(swingOf(lesson, hand, (point) => point))).toEqual([]);
  },
);

test('points that were swapped are asked about', () => {
  const swap = (a: BodyPointId, b: BodyPointId) => (point: BodyPointId) => (point === a ? b : point === b ? a : point);
  expect(asked(swingOf('now', 'right', swap('tailbone', 'neck-base')))).toContain('back-incline');
  expect(asked(swingOf('now', 'right', swap('lead-knee', 'lead-hip')))).toContain('lead-knee');
  expect(asked(swingOf('now', 'right', swap('grip-end', 'clubhead')))).toContain('shaft-incline');
});

const swings = DEMO_LESSONS.flatMap((lesson) => HANDEDNESS.map((hand) => [lesson, hand] as const));
const otherHand = (hand: Handedness): Handedness => (hand === 'right' ? 'left' : 'right');
const kindsOf = (swing: MarkedSwing) =>
  swing.clips.map((clip) => questionsOf(clip, swing.handedness).map(({ kind }) => kind));
/** Only these points, as a coach marks a frame or two. */
const only = (swing: MarkedSwing, points: readonly BodyPointId[]): MarkedSwing => ({
  ...swing,
  clips: swing.clips.map((clip) => ({
    ...clip,
    marks: clip.marks.map((marks) => ({
      ...marks,
      points: Object.fromEntries(Object.entries(marks.points).filter(([id]) => points.some((point) => point === id))),
    })),
  })),
});

test.each(swings)('handedness is questioned where the lesson says the other, %s, %s-handed, and only then', (...of) => {
  const swing = swingOf(...of, (point) => point);
  const wrong = { ...swing, handedness: otherHand(swing.handedness) };
  expect(VIEWS).toEqual(['down-the-line', 'face-on']);
  expect(kindsOf(swing)).toEqual([[], []]);
  expect(kindsOf(wrong)).toEqual([['hand'], ['hand']]);
  expect(questionsAbout(wrong)[1]).toMatch(/^Face on: these marks fit a player of the opposite handedness, /);
  // A single pair is enough, and nothing is asked of nothing.
  expect(kindsOf(only(wrong, ['lead-ankle', 'trail-ankle']))[1]).toEqual(['hand']);
  expect(kindsOf(only(swing, ['lead-ankle', 'trail-ankle']))[1]).toEqual([]);
  expect(kindsOf(only(wrong, ['ball', 'trail-ankle']))[0]).toEqual(['hand']);
  expect(kindsOf(only(wrong, []))).toEqual([[], []]);
});

test.each(swings)('also where the coach named lead and trail to fit the wrong hand, %s, %s-handed', (...of) => {
  const crossed = (point: BodyPointId): BodyPointId => {
    const [side, ...rest] = point.split('-');
    const named = [side === 'lead' ? 'trail' : side === 'trail' ? 'lead' : side, ...rest].join('-');
    return BODY_POINTS.find((each) => each === named) ?? point;
  };
  const swing = swingOf(...of, crossed);
  expect(kindsOf({ ...swing, handedness: otherHand(swing.handedness) })[1]).toEqual(['hand']);
});

test('what lies within its placing error votes for neither hand', () => {
  const swing = only(
    swingOf('now', 'right', (point) => point),
    ['lead-ankle', 'trail-ankle'],
  );
  const close = {
    ...swing,
    clips: swing.clips.map((clip) => ({
      ...clip,
      marks: clip.marks.map((marks) => ({
        ...marks,
        points: { 'lead-ankle': { x: 500, y: 500, hidden: false }, 'trail-ankle': { x: 505, y: 500, hidden: false } },
      })),
    })),
  };
  expect(kindsOf(close)).toEqual([[], []]);
});

/** With one line drawn at address down the line. */
function withLine(role: LineShape['role'], a: PicturePoint, b: PicturePoint, lengthMm: number | null): MarkedSwing {
  const swing = swingOf('now', 'right', (point) => point);
  const shape: LineShape = { id: 'drawn', kind: 'line', role, a, b, lengthMm };
  const clips = swing.clips.map((clip) => ({
    ...clip,
    marks: clip.marks.map((marks) =>
      clip.view === 'down-the-line' && marks.frame.index === clip.checkpoints.address?.index
        ? { ...marks, shapes: [shape] }
        : marks,
    ),
  }));
  return { ...swing, clips };
}

test('a plumb that lies level, or a level that stands upright, is questioned and tells no vertical', () => {
  const inclineOf = (swing: MarkedSwing) => {
    const incline = readSwing(swing).find(({ id, checkpoint }) => id === 'back-incline' && checkpoint === 'address');
    if (incline?.state !== 'measured') throw new Error('the back is marked');
    return incline;
  };
  const bare = inclineOf(swingOf('now', 'right', (point) => point));
  const across = [
    { x: 100, y: 300 },
    { x: 900, y: 310 },
  ] as const;
  const down = [
    { x: 100, y: 100 },
    { x: 110, y: 900 },
  ] as const;
  for (const [role, [a, b]] of [
    ['plumb', across],
    ['level', down],
  ] as const) {
    const swing = withLine(role, a, b, null);
    expect(kindsOf(swing)[0]).toEqual(['crossed']);
    const incline = inclineOf(swing);
    expect(incline.value).toBe(bare.value);
    expect(incline.notes).toContain('no-plumb');
    expect(incline.shapes).toEqual([]);
  }
  for (const [role, [a, b]] of [
    ['plumb', down],
    ['level', across],
  ] as const) {
    const swing = withLine(role, a, b, null);
    expect(kindsOf(swing)[0]).toEqual([]);
    expect(inclineOf(swing).notes).not.toContain('no-plumb');
  }
  expect(kindsOf(withLine('plumb', { x: 100, y: 100 }, { x: 400, y: 900 }, null))[0]).toEqual(['leaning']);
  expect(questionsAbout(withLine('plumb', { x: 400, y: 900 }, { x: 100, y: 100 }, null))[0]).toBe(
    'Down the line: this plumb is 21° off in the picture. Is that edge really upright?',
  );
  expect(kindsOf(withLine('plumb', { x: 100, y: 100 }, { x: 100, y: 100 }, null))[0]).toEqual([]);
});

test('a known length by which nobody could be so tall, or so small, is questioned; a right one is not', () => {
  const foreshortened = (pixels: number) =>
    withLine('yardstick', { x: 200, y: 900 }, { x: 200 + pixels, y: 900 }, 1000);
  const { clips } = swingOf('now', 'right', (point) => point);
  const height = clips[0]?.height ?? 0;
  // The demo's metre is a quarter to a third of its picture's height.
  expect(kindsOf(foreshortened(0.3 * height))[0]).toEqual([]);
  expect(kindsOf(foreshortened(0.06 * height))[0]).toEqual(['size']);
  expect(kindsOf(foreshortened(1.5 * height))[0]).toEqual(['size']);
  expect(kindsOf(foreshortened(3))[0]).toEqual(['unsure-scale']);
});
