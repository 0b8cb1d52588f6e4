import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { isImplausible, plausibleRange } from '../../core/measure/doubts/plausible.ts';
import type { MeasuredReading, ReadingId, Unit } from '../../core/model/reading.ts';
import { CHECKPOINTS, VIEWS, type Checkpoint, type View } from '../../core/model/words.ts';
import { describeOn, outsideMedia } from '../support/outside-media.ts';

/**
 * damilab/CaddieSet at 3c73d9d, MIT licence: 1,757 shots, joint angles found by a pose detector at eight events, 0 address
 * to 7 finish. The table says no more about a column than its name; what a column is was judged by us from its name and
 * its values, and is stated here. It is read in this test alone.
 *
 * Angles there have no sign, so both signs must be plausible. `broken` is what the reading's own formula can never give
 * (an interior angle over 180, two ankles on one place): cells that are empty, no number or broken are detections that
 * failed, and are left out.
 */
interface Column {
  readonly column: string;
  readonly view: View;
  readonly id: ReadingId;
  readonly unit: Unit;
  /** The reading's value or values (both signs) for a number of the table. */
  readonly means: (value: number) => readonly number[];
  readonly broken: (value: number) => boolean;
}

const bothSigns = (value: number) => [value, -value];
const tilt = (column: string, view: View, id: ReadingId): Column => ({
  ...{ column, view, id, unit: 'deg' as const, means: bothSigns },
  broken: (value) => value < 0 || value > 90,
});
const joint = (column: string, view: View, id: ReadingId): Column => ({
  ...{ column, view, id, unit: 'deg' as const, means: (value: number) => [value] },
  broken: (value) => value < 0 || value > 180,
});
/** The table counts from horizontal, the reading from vertical; leaning away from the ball does not happen there. */
const spine = (column: string): Column => ({
  ...{ column, view: 'down-the-line' as const, id: 'back-incline' as const, unit: 'deg' as const },
  means: (value) => [90 - value],
  broken: (value) => value < 0 || value > 180,
});

const COLUMNS: readonly Column[] = [
  tilt('0-SHOULDER-ANGLE', 'face-on', 'shoulder-line'),
  tilt('5-SHOULDER-ANGLE', 'face-on', 'shoulder-line'),
  ...[2, 3, 4, 6, 7].map((event) => tilt(`${String(event)}-HIP-ANGLE`, 'down-the-line', 'hip-line')),
  ...[0, 1, 4, 5, 6, 7].map((event) => spine(`${String(event)}-SPINE-ANGLE`)),
  joint('3-LEFT-LEG-ANGLE', 'down-the-line', 'lead-knee'),
  joint('5-LEFT-LEG-ANGLE', 'down-the-line', 'lead-knee'),
  joint('3-RIGHT-LEG-ANGLE', 'down-the-line', 'trail-knee'),
  joint('3-RIGHT-LEG-ANGLE', 'face-on', 'trail-knee'),
  joint('6-RIGHT-LEG-ANGLE', 'face-on', 'trail-knee'),
  // How upright the body stands at the finish, from horizontal.
  {
    ...{ column: '7-FINISH-ANGLE', view: 'face-on', id: 'side-tilt', unit: 'deg' },
    means: (value) => bothSigns(90 - value),
    broken: (value) => value < 0 || value > 90,
  },
  // Feet apart as a multiple of the shoulders' width.
  {
    ...{ column: '0-STANCE-RATIO', view: 'face-on', id: 'stance-width', unit: '% shoulder width' },
    means: (value) => [100 * value],
    broken: (value) => value <= 0,
  },
];

/** The first figure of a column is its event: the eight events of the table are our checkpoints in the same order. */
function eventOf(column: string): Checkpoint {
  const event = CHECKPOINTS[Number(column[0])];
  if (event === undefined) throw new Error(`${column} has no event`);
  return event;
}

/** All but one of two hundred: the detector swaps legs now and then. */
const LEAST_SHARE = 0.995;

const TABLE = 'golf/CaddieSet.csv';

describeOn(TABLE)('plausible ranges hold the joint angles of 1,757 real shots', () => {
  let head: readonly string[] = [];
  let rows: readonly (readonly string[])[] = [];
  beforeAll(() => {
    [head = [], ...rows] = readFileSync(outsideMedia(TABLE), 'utf8')
      .trim()
      .split(/\r?\n/)
      .map((line) => line.split(','));
  });

  it('the table is the one that was judged', () => {
    expect(rows).toHaveLength(1757);
  });

  it.each(COLUMNS)('$column, $view, as $id', ({ column, view, id, unit, means, broken }) => {
    const place = head.indexOf(column);
    expect(place).toBeGreaterThan(0);
    const ofView = rows.filter(([first]) => first === (view === 'face-on' ? 'FACEON' : 'DTL'));
    const cells = ofView.map((row) => row[place] ?? '').filter((cell) => /^-?[0-9.]+$/.test(cell));
    const values = cells.map(Number).filter((value) => !broken(value));
    // Else the column is not what it is taken for.
    expect(values.length).toBeGreaterThan(0.8 * ofView.length);
    const possible = plausibleRange({ id, unit, aspect: 'value', view, checkpoint: eventOf(column) });
    if (possible === null) throw new Error(`${id} has no plausible range`);
    const held = values.filter((value) =>
      means(value).every((meant) => meant >= possible.from && meant <= possible.to),
    ).length;
    console.log(
      `${column} ${view}: ${String(held)} of ${String(values.length)} within (${String(cells.length - values.length)} broken)`,
    );
    expect(held / values.length).toBeGreaterThanOrEqual(LEAST_SHARE);
  });
});

describe('a reading is asked about', () => {
  const reading = (value: number, half: number): MeasuredReading => ({
    ...{ id: 'lead-knee', aspect: 'value', view: 'face-on', checkpoint: 'top', state: 'measured', unit: 'deg' },
    ...{
      value,
      u: half / 1.96,
      interval: [value - half, value + half],
      coverage: 1.96,
      budget: [],
      shared: [],
      method: 'first-order',
    },
    ...{ from: [], shapes: [], notes: [] },
  });

  it('only where no part of its ± can be', () => {
    expect(isImplausible(reading(60, 5))).toBe(true);
    expect(isImplausible(reading(78, 5))).toBe(false);
    expect(isImplausible(reading(150, 5))).toBe(false);
  });

  it('never where its unit has no range', () => {
    expect(isImplausible({ ...reading(4000, 5), unit: 'px' })).toBe(false);
    for (const view of VIEWS)
      expect(plausibleRange({ ...reading(1, 1), id: 'backswing', unit: 's on screen', view })).toBeNull();
  });
});
