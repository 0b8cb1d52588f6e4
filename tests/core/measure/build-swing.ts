import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { Shape } from '../../../core/model/mark.ts';
import type { MeasuredReading, Reading, ReadingId, ReadingKey } from '../../../core/model/reading.ts';
import type { MarkedClip, MarkedSwing } from '../../../core/model/swing.ts';
import type { Checkpoint, Handedness, View } from '../../../core/model/words.ts';
import { CHECKPOINTS } from '../../../core/model/words.ts';
import { readSwing } from '../../../core/measure/readings/read-swing.ts';
import { HEIGHT, WIDTH, frameOf } from './invented-swing.ts';
import { STEADY } from '../../support/steady.ts';

/** Points of a few checkpoints, by hand: `{ top: { tailbone: [100, 200] } }`. */
export type Placed = Readonly<
  Partial<Record<Checkpoint, Readonly<Partial<Record<BodyPointId, readonly [number, number]>>>>>
>;

export interface Given {
  readonly view: View;
  readonly placed: Placed;
  readonly handedness?: Handedness;
  /** Drawn on the frame of address. */
  readonly shapes?: readonly Shape[];
  readonly clip?: Partial<MarkedClip>;
}

/** A swing of one clip with just these points; every checkpoint in `placed` is named. */
export function swingOf({ view, placed, handedness = 'right', shapes = [], clip = {} }: Given): MarkedSwing {
  const named = CHECKPOINTS.filter((checkpoint) => placed[checkpoint] !== undefined);
  const marks = named.map((checkpoint) => ({
    frame: frameOf(checkpoint),
    points: Object.fromEntries(
      Object.entries(placed[checkpoint] ?? {}).map(([point, [x, y]]) => [point, { x, y, hidden: false }]),
    ),
    shapes: checkpoint === 'address' ? shapes : [],
  }));
  return {
    studentFirstName: 'Ada',
    date: '2026-05-12',
    club: '7 iron',
    handedness,
    clips: [
      {
        view,
        width: WIDTH,
        height: HEIGHT,
        timebase: { num: 1, den: 15360 },
        nominalRate: { num: 120, den: 1 },
        captureRate: { framesPerSecond: { num: 120, den: 1 }, confirmed: true },
        checkpoints: Object.fromEntries(named.map((checkpoint) => [checkpoint, frameOf(checkpoint)])),
        marks,
        ...clip,
      },
    ],
  };
}

export function findReading(swing: MarkedSwing, id: ReadingId, want: Partial<ReadingKey> = {}): Reading {
  const { aspect = 'value', checkpoint, view } = want;
  const found = readSwing(swing, STEADY).find(
    (reading) =>
      reading.id === id &&
      reading.aspect === aspect &&
      (checkpoint === undefined || reading.checkpoint === checkpoint) &&
      (view === undefined || reading.view === view),
  );
  if (found === undefined) throw new Error(`${id} is not in the list`);
  return found;
}

export function measuredReading(swing: MarkedSwing, id: ReadingId, want: Partial<ReadingKey> = {}): MeasuredReading {
  const reading = findReading(swing, id, want);
  if (reading.state !== 'measured') throw new Error(`${id} is missing: ${reading.reason}`);
  return reading;
}
