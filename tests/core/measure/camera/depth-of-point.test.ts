import { describe, expect, it } from 'vitest';
import { demoScenario } from '../../../../core/demo/demo-scenario.ts';
import { depthsIn } from '../../../../core/measure/camera/depth-of-point.ts';
import { ASSUMED_PLACING } from '../../../../core/measure/uncertainty/placing.ts';
import type { BodyPointId } from '../../../../core/model/body-points.ts';
import { VIEWS } from '../../../../core/model/words.ts';
import type { View } from '../../../../core/model/words.ts';
import { checkpointFrames } from '../../../../core/scene/checkpoint-frames.ts';
import { pointsInWorld, poseOfFrame } from '../../../../core/scene/truth.ts';
import { radians } from '../../../../core/scene/vector.ts';
import { ON_LINE } from '../../../support/off-camera.ts';
import type { OffBy } from '../../../support/off-camera.ts';
import { ALL_MARKS, offScene } from '../../../support/off-scene.ts';
import { within } from '../../../support/within.ts';

const SCENARIO = demoScenario('then');
const FRAMES = checkpointFrames(SCENARIO);
const CHECKPOINTS = ['address', 'top', 'impact'] as const;
const POINTS = ['head-centre', 'neck-base', 'lead-shoulder', 'trail-shoulder', 'trail-hip', 'grip-end'] as const;
const PLACES = VIEWS.flatMap((view) =>
  CHECKPOINTS.flatMap((checkpoint) => POINTS.map((point) => ({ view, checkpoint, point }))),
);

interface Place {
  readonly view: View;
  readonly checkpoint: (typeof CHECKPOINTS)[number];
  readonly point: BodyPointId;
}

/** Depths of every place, with both cameras off by so much. */
function depthsWith(off: Partial<OffBy>, isTold: boolean) {
  const camera = { ...ON_LINE, ...off };
  const marking = { ...ALL_MARKS, ground: isTold, plumb: isTold, path: false, checkpoints: CHECKPOINTS };
  const { seen } = offScene(SCENARIO, { 'face-on': camera, 'down-the-line': camera }, marking);
  return PLACES.map(({ view, checkpoint, point }) => {
    const [clip] = seen.clips.filter((each) => each.view === view);
    const others = seen.clips.filter((each) => each.view !== view);
    if (clip === undefined) throw new Error('there are two views');
    const { of, by } = depthsIn(clip, others, 1, ASSUMED_PLACING);
    return { name: `${point}, ${view}, ${checkpoint}`, by, ...of(point, checkpoint) };
  });
}

/** How much nearer to the camera a place of the scene lies than the middle of the ankles, metres. */
function trueDepth({ view, checkpoint, point }: Place): number {
  const at = pointsInWorld(poseOfFrame(SCENARIO, FRAMES[checkpoint]))[point];
  const feet = pointsInWorld(poseOfFrame(SCENARIO, FRAMES.address));
  const [lead, trail] = [feet['lead-ankle'], feet['trail-ankle']];
  const along = (of: View) => (of === 'face-on' ? at.z - (lead.z + trail.z) / 2 : (lead.x + trail.x) / 2 - at.x);
  return along(view);
}

describe('depths that the other view tells', () => {
  it.each([
    ['on their line', {}],
    ['turned', { yaw: 6 }],
    ['turned the other way, rolled and higher', { yaw: -6, roll: 2, above: 0.2 }],
  ])('are those of the body where marks tell the cameras: %s', (_, off) => {
    for (const [i, found] of depthsWith(off, true).entries()) {
      const place = PLACES[i];
      if (place === undefined) throw new Error('as many places as depths');
      expect(found.isSeen).toBe(true);
      // Two centimetres, or what its scale is unsure by: the stick does not lie at the ankles. A roll of 2 degrees alone made 5 cm.
      within(found.value, trueDepth(place), Math.max(0.02, 2 * found.scaleU * Math.abs(found.value)), found.name);
    }
  });

  it.each([-6, 6])('of a clubhead that is a metre nearer, by a camera turned by %d degrees', (yaw) => {
    const [straight, turned] = [0, yaw].map((each) => {
      const cameras = { 'face-on': ON_LINE, 'down-the-line': { ...ON_LINE, yaw: each } };
      const marking = { ...ALL_MARKS, path: false, checkpoints: ['address', 'takeaway'] as const };
      const [own, ...others] = offScene(SCENARIO, cameras, marking).seen.clips.toSorted((a, b) =>
        a.view < b.view ? -1 : 1,
      );
      if (own === undefined) throw new Error('there are two views');
      return depthsIn(own, others, 1, ASSUMED_PLACING).of('clubhead', 'takeaway').value;
    });
    expect(straight).toBeGreaterThan(1);
    // Its own camera sees it 12 cm beside its place. Where that was taken for its place, its depth was 3 cm off.
    within(turned ?? Number.NaN, straight ?? Number.NaN, 0.005);
  });

  it('tell a tailbone by the hips, which that view sees too: surer than a usual posture, and as far off as it says', () => {
    const clips = offScene(SCENARIO, { 'face-on': ON_LINE, 'down-the-line': ON_LINE }, { ...ALL_MARKS, path: false })
      .seen.clips;
    const [own, faceOn] = VIEWS.map((view) => clips.find((clip) => clip.view === view));
    if (own === undefined || faceOn === undefined) throw new Error('there are two views');
    const withoutHips = {
      ...faceOn,
      marks: faceOn.marks.map((marks) => ({
        ...marks,
        points: Object.fromEntries(Object.entries(marks.points).filter(([point]) => !point.endsWith('-hip'))),
      })),
    };
    for (const checkpoint of CHECKPOINTS) {
      const place = { view: 'down-the-line', checkpoint, point: 'tailbone' } as const;
      const [found, usual] = [faceOn, withoutHips].map((other) =>
        depthsIn(own, [other], 1, ASSUMED_PLACING).of('tailbone', checkpoint),
      );
      if (found === undefined || usual === undefined) throw new Error('two depths');
      expect([found.isSeen, usual.isSeen]).toEqual([true, false]);
      expect(Math.hypot(found.u, found.takenU)).toBeLessThan(0.6 * usual.u);
      within(found.value, trueDepth(place), 2 * Math.hypot(found.u, found.takenU), `tailbone at ${checkpoint}`);
    }
  });

  it('are off by what is said of a camera that nothing tells: a degree of yaw and of roll', () => {
    const straight = depthsWith({}, false);
    for (const [off, per] of [
      [{ yaw: 1 }, 'perYaw'],
      [{ roll: 1 }, 'perRoll'],
    ] as const) {
      const moved = depthsWith(off, false).map(({ value }, i) => value - (straight[i]?.value ?? Number.NaN));
      for (const view of VIEWS) {
        const here = straight
          .map((each, i) => ({ ...each, by: moved[i] ?? 0 }))
          .filter((_, i) => PLACES[i]?.view === view);
        // Of one sign or the other, but of one for all.
        const sign = Math.sign(here.reduce((sum, each) => sum + each.by * each[per], 0));
        for (const each of here) within(each.by, sign * each[per] * radians(1), 0.004, `${per}, ${each.name}`);
      }
    }
    for (const { by } of straight) expect(by?.yaw.u).toBeGreaterThan(radians(2.9));
    for (const { by } of depthsWith({}, true)) expect(by?.yaw.u).toBeLessThan(radians(1));
  });
});
