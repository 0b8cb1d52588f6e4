import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { FrameMarks, PlacedPoint, Shape } from '../../../core/model/mark.ts';
import type { MarkedClip, MarkedSwing } from '../../../core/model/swing.ts';
import type { Checkpoint, View } from '../../../core/model/words.ts';

export const HEAD_BOX: Shape = {
  kind: 'box',
  id: '11111111-1111-4111-8111-111111111111',
  x: 520,
  y: 150,
  width: 120,
  height: 140,
  role: 'head-box',
};

const ADDRESS: Readonly<Partial<Record<BodyPointId, readonly [number, number]>>> = {
  'head-centre': [580, 220],
  'neck-base': [540, 300],
  tailbone: [440, 520],
  'lead-shoulder': [620, 350],
  'trail-shoulder': [480, 320],
  'trail-hip': [450, 540],
  'trail-knee': [480, 690],
  'trail-ankle': [440, 850],
  'grip-end': [560, 560],
  clubhead: [760, 860],
};

function points(shift: number): Readonly<Partial<Record<BodyPointId, PlacedPoint>>> {
  return Object.fromEntries(
    Object.entries(ADDRESS).map(([id, [x, y]]) => [id, { x: x + shift, y: y + shift / 2, hidden: false }]),
  );
}

/** A clip of 20 frames, 512 ticks of 1/61440 s each, with the named frames marked; points drift by `shift` a checkpoint. */
export function markedClip(view: View, named: Readonly<Partial<Record<Checkpoint, number>>>, shift = 4): MarkedClip {
  const frames = Object.entries(named).map(([checkpoint, index]) => ({ checkpoint, index, pts: index * 512 }));
  const marks: FrameMarks[] = frames.map(({ checkpoint, index, pts }, place) => ({
    frame: { index, pts },
    points: points(place * shift),
    shapes:
      checkpoint === 'address'
        ? [{ ...HEAD_BOX, id: HEAD_BOX.id.replace('8111', view === 'face-on' ? '8112' : '8111') }]
        : [],
  }));
  return {
    view,
    width: 1080,
    height: 1080,
    timebase: { num: 1, den: 61_440 },
    nominalRate: { num: 120, den: 1 },
    captureRate: { framesPerSecond: { num: 120, den: 1 }, confirmed: true },
    checkpoints: Object.fromEntries(
      frames.map(({ checkpoint, index, pts }) => [checkpoint, { index, pts, ticks: 512 }]),
    ),
    marks,
  };
}

export function markedSwing(date: string, clips: readonly MarkedClip[]): MarkedSwing {
  return { studentFirstName: 'Robin', date, club: '7 iron', handedness: 'right', clips };
}
