import { describe, expect, it } from 'vitest';
import { demoScenario } from '../../../../core/demo/demo-scenario.ts';
import { toldCameraOf } from '../../../../core/measure/camera/told-camera.ts';
import { seeded } from '../../../../core/measure/uncertainty/seeded.ts';
import type { Seeded } from '../../../../core/measure/uncertainty/seeded.ts';
import { marksAt } from '../../../../core/model/swing.ts';
import type { MarkedClip } from '../../../../core/model/swing.ts';
import type { View } from '../../../../core/model/words.ts';
import { checkpointFrames } from '../../../../core/scene/checkpoint-frames.ts';
import { pointsInWorld, poseOfFrame } from '../../../../core/scene/truth.ts';
import { add, along, scale } from '../../../../core/scene/vector.ts';
import { offCamera, ON_LINE } from '../../../support/off-camera.ts';
import type { OffBy } from '../../../support/off-camera.ts';
import { ALL_MARKS, offScene } from '../../../support/off-scene.ts';
import type { Marking } from '../../../support/off-scene.ts';
import { markedAgain } from '../../../support/marked-again.ts';
import { within } from '../../../support/within.ts';

const SCENARIO = demoScenario('then');
const CLICK = 3;
/** A clip in 300 contradicts its camera by more than 3 of its errors, by chance alone; of these 400 it is three. */
const [SEED, CLICKINGS] = [15, 200] as const;
/** The camera face on stands so far from the ankles; the middle of the mat's corners lies 35 cm before them. */
const FAR = 6.4;

function clipOf(view: View, off: Partial<OffBy> = {}, stickNearer?: Marking['stickNearer']): MarkedClip {
  const camera = { ...ON_LINE, ...off };
  const marking = stickNearer === undefined ? ALL_MARKS : { ...ALL_MARKS, stickNearer };
  const clip = offScene(SCENARIO, { 'down-the-line': camera, 'face-on': camera }, marking).seen.clips.find(
    (each) => each.view === view,
  );
  if (clip === undefined) throw new Error('both views are filmed');
  return clip;
}

/** Pixels of a metre square to the camera's axis at the body's ankles, by the scene's own camera. */
function metreAtAnkles(view: View, off: Partial<OffBy>): number {
  const { ideal, camera } = offCamera(SCENARIO, view, { ...ON_LINE, ...off });
  const at = pointsInWorld(poseOfFrame(SCENARIO, checkpointFrames(SCENARIO).address));
  const middle = scale(add(at['lead-ankle'], at['trail-ankle']), 0.5);
  const [left, right] = [-0.5, 0.5].map((by) => ideal(along(middle, camera.turn[0], by)));
  if (left === undefined || right === undefined) throw new Error('two places are seen');
  return Math.hypot(right.x - left.x, right.y - left.y);
}

/** Its mat and ankles clicked anew. */
function clickedAnew(clip: MarkedClip, numbers: Seeded): MarkedClip {
  const swing = { studentFirstName: 'Robin', date: '2026-05-12', club: '7 iron', handedness: 'right' } as const;
  const [again] = markedAgain({ ...swing, clips: [clip] }, CLICK, numbers).clips;
  if (again === undefined) throw new Error('one clip was marked');
  return again;
}

/** The same clip without its ankles at address. */
function withoutAnkles(clip: MarkedClip): MarkedClip {
  const address = marksAt(clip, 'address');
  const points = Object.fromEntries(
    Object.entries(address?.points ?? {}).filter(([point]) => !point.endsWith('-ankle')),
  );
  return { ...clip, marks: clip.marks.map((marks) => (marks === address ? { ...marks, points } : marks)) };
}

describe('how far a camera that ground marks tell stands from the player', () => {
  // An ankle is taken to stand half a centimetre higher than this body's: that is 4 cm of ground at 6 m.
  it.each([0, 1.4])('is counted from between the ankles, %d m nearer, wherever the mat lies', (nearer) => {
    const told = toldCameraOf(clipOf('face-on', { nearer }), 1, CLICK);
    within(told?.distance.value ?? Number.NaN, FAR - nearer, 0.05);
    // 2 cm of an ankle's height are 13 cm there, and the clicks on the mat come on top.
    expect(told?.distance.u).toBeGreaterThan(0.1);
    expect(told?.distance.u).toBeLessThan(0.3);
  });

  it('and down the line too, where one ankle stands before the other', () => {
    within(toldCameraOf(clipOf('down-the-line'), 1, CLICK)?.distance.value ?? Number.NaN, 6.2, 0.05);
  });

  it('without ankles is that of the middle of the marks, and less sure than that lies off', () => {
    const told = toldCameraOf(withoutAnkles(clipOf('face-on')), 1, CLICK);
    within(told?.distance.value ?? Number.NaN, FAR - 0.35, 0.01);
    expect(told?.distance.u).toBeGreaterThan(0.3);
  });

  it.each(['face-on', 'down-the-line'] as const)(
    '%s it tells how large a metre is there, wherever the known length lies',
    (view) => {
      for (const off of [{}, { nearer: 1.4, above: 0.3 }, { yaw: 6, roll: 2 }])
        for (const stick of [-0.3, 0.3]) {
          const told = toldCameraOf(
            clipOf(view, off, { 'down-the-line': stick, 'face-on': stick }),
            1,
            CLICK,
          )?.perMetre;
          // An ankle is taken to stand half a centimetre higher than this body's.
          within(told?.value ?? Number.NaN, metreAtAnkles(view, off), 0.01 * metreAtAnkles(view, off));
          expect(told?.u).toBeGreaterThan(0);
        }
    },
  );

  it.each(['face-on', 'down-the-line'] as const)(
    '%s a metre scatters as its u says when the mat is clicked anew',
    (view) => {
      const clip = clipOf(view);
      const numbers = seeded(SEED);
      const told = Array.from(
        { length: CLICKINGS },
        () => toldCameraOf(clickedAnew(clip, numbers), 1, CLICK)?.perMetre ?? { value: Number.NaN, u: Number.NaN },
      );
      const mean = (of: (each: (typeof told)[number]) => number) =>
        told.reduce((sum, each) => sum + of(each), 0) / CLICKINGS;
      const middle = mean(({ value }) => value);
      // 200 clickings know a scatter to 5 %.
      within(Math.sqrt(mean(({ value }) => (value - middle) ** 2)) / mean(({ u }) => u), 1, 0.15);
    },
  );

  it('is told however a hand that is off by 3 px clicks the mat: a swing that is not corrected beside others pulls their mean away', () => {
    const clip = offScene(
      SCENARIO,
      { 'down-the-line': ON_LINE, 'face-on': ON_LINE },
      { ...ALL_MARKS, path: false, headBox: false, points: ['lead-ankle', 'trail-ankle'], checkpoints: ['address'] },
    ).seen;
    const numbers = seeded(SEED);
    const untold = Array.from({ length: CLICKINGS }, () =>
      markedAgain(clip, CLICK, numbers).clips.filter((each) => toldCameraOf(each, 1, CLICK) === null),
    ).flat();
    expect(untold, `seed ${String(SEED)}`).toEqual([]);
  });

  it('its numbers have the same name as long as the very same marks tell them', () => {
    const [clip, nearer] = [clipOf('face-on'), clipOf('face-on', { yaw: 1 })];
    const nameOf = (of: MarkedClip) => toldCameraOf(of, 1, CLICK)?.named('camera yaw');
    expect(nameOf(withoutAnkles(clip))).toBe(nameOf(clip));
    expect(nameOf(nearer)).not.toBe(nameOf(clip));
  });
});
