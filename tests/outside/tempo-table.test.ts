import { describe, it } from 'vitest';
import { ASSUMED_PLACING } from '../../core/measure/uncertainty/placing.ts';
import { readSwing } from '../../core/measure/readings/read-swing.ts';
import type { MeasuredReading, ReadingId } from '../../core/model/reading.ts';
import type { CheckpointFrame } from '../../core/model/frame.ts';
import type { MarkedSwing } from '../../core/model/swing.ts';
import { within } from '../support/within.ts';

/**
 * Derived, not published: an event named to a frame is rectangular within half a frame, u = T / sqrt(12); an interval of
 * two events T / sqrt(6); the ratio 0.75 s : 0.25 s from three events, of which the top is shared. Taking both times as
 * independent would give 0.17213 at 30 frames a second, 12 % too small.
 */
const TABLE = [
  { fps: 30, event: 9.6225, interval: 13.6083, ratio: 0.19626 },
  { fps: 60, event: 4.8113, interval: 6.8041, ratio: 0.09813 },
  { fps: 120, event: 2.4056, interval: 3.4021, ratio: 0.04907 },
  { fps: 240, event: 1.2028, interval: 1.701, ratio: 0.02453 },
];

/** A clip stored at `stored` frames a second, captured at `captured`; ticks are a hundredth of a stored frame. */
function swing(captured: number | null, stored: number, fps: number): MarkedSwing {
  const frame = (seconds: number): CheckpointFrame => {
    const index = seconds * fps + 10;
    return { index: Math.round(index), pts: 100 * index, ticks: 100 };
  };
  return {
    studentFirstName: 'Ada',
    date: '2026-05-12',
    club: '7 iron',
    handedness: 'right',
    clips: [
      {
        view: 'face-on',
        width: 1920,
        height: 1080,
        timebase: { num: 1, den: 100 * stored },
        nominalRate: { num: stored, den: 1 },
        captureRate: captured === null ? null : { framesPerSecond: { num: captured, den: 1 }, confirmed: true },
        checkpoints: { takeaway: frame(0), top: frame(0.75), impact: frame(1) },
        marks: [],
      },
    ],
  };
}

/** The table is of the frame interval alone: which frame is named is taken to be known. */
const SURELY_NAMED = { ...ASSUMED_PLACING, naming: { known: { takeaway: 0, top: 0, impact: 0 } } };

function find(of: MarkedSwing, id: ReadingId): MeasuredReading {
  const reading = readSwing(of, SURELY_NAMED).find(
    (candidate) => candidate.id === id && candidate.state === 'measured',
  );
  if (reading?.state !== 'measured') throw new Error(`${id} was not measured`);
  return reading;
}

describe('times and tempo from named frames', () => {
  it.each(TABLE)('at $fps frames a second', ({ fps, event, interval, ratio }) => {
    const of = swing(fps, fps, fps);
    const [backswing, downswing, tempo] = [find(of, 'backswing'), find(of, 'downswing'), find(of, 'tempo')];
    within(backswing.value, 0.75, 1e-12);
    within(downswing.value, 0.25, 1e-12);
    within(tempo.value, 3, 1e-12);
    within(1000 * backswing.u, interval, 0.00006);
    within(1000 * downswing.u, interval, 0.00006);
    within((1000 * downswing.u) / Math.SQRT2, event, 0.00006);
    // The table was made on paper; central differences err by about (T / 100 / Td)^2, far below its last digit.
    within(tempo.u, ratio, 0.00001);
  });

  it('of a clip taken at 240 and stored at 30 are those of the swing', () => {
    const of = swing(240, 30, 240);
    within(find(of, 'downswing').value, 0.25, 1e-12);
    within(1000 * find(of, 'downswing').u, 1.701, 0.00006);
    within(find(of, 'tempo').u, 0.02453, 0.00001);
  });

  it('of the same clip with no capture rate are those of the screen, while tempo is unchanged', () => {
    const of = swing(null, 30, 240);
    const downswing = find(of, 'downswing');
    within(downswing.value, 2, 1e-12);
    if (downswing.unit !== 's on screen') throw new Error(downswing.unit);
    if (!downswing.notes.includes('capture-rate-unknown')) throw new Error('the note is missing');
    within(find(of, 'tempo').value, 3, 1e-12);
    within(find(of, 'tempo').u, 0.02453, 0.00001);
  });
});
