import { compareLessons } from '../../core/compare/lesson-comparison.ts';
import type { Lesson } from '../../core/compare/lesson-comparison.ts';
import { scatterIn } from '../../core/compare/player-scatter.ts';
import { judged } from '../../core/compare/verdicts.ts';
import { ASSUMED_SET_UP } from '../../core/measure/camera/set-up-errors.ts';
import type { Goals } from '../../core/measure/goals/goals.ts';
import { readSwing } from '../../core/measure/readings/read-swing.ts';
import type { PlacingErrors } from '../../core/measure/uncertainty/placing.ts';
import { seeded } from '../../core/measure/uncertainty/seeded.ts';
import type { Seeded } from '../../core/measure/uncertainty/seeded.ts';
import { sameReading } from '../../core/model/reading.ts';
import type { Comparison, MeasuredReading, ReadingKey } from '../../core/model/reading.ts';
import type { MarkedSwing } from '../../core/model/swing.ts';
import { VIEWS } from '../../core/model/words.ts';
import type { TimedCheckpoint, View } from '../../core/model/words.ts';
import type { Scenario } from '../../core/scene/scenario.ts';
import { drawnCameras, drawnEye, drawnPlayer, drawnSwing } from './drawn-lessons.ts';
import type { Drawing } from './drawn-lessons.ts';
import type { Marking } from './off-scene.ts';
import { trueReadings } from './true-readings.ts';

/** Two lessons a month apart in which nothing changed, over and over. */
export interface Trials {
  readonly scenario: Scenario;
  readonly drawing: Drawing;
  readonly marking: Marking;
  readonly goals: Goals;
  readonly placing: PlacingErrors;
  /** Another player in each pair; else always the scenario's. */
  readonly players?: boolean;
  /** Nothing is known from the other view. */
  readonly viewsApart?: boolean;
  readonly pairs: number;
  /** Swings a lesson; one when left out. */
  readonly swings?: number;
  readonly seed: number;
}

/** What became of one reading in all trials. */
export interface Tried {
  readonly key: ReadingKey;
  readonly name: string;
  readonly truth: number | null;
  /** Readings of single swings, then and now alike: value less truth, u, and whether the interval held the truth. */
  readonly errors: readonly number[];
  readonly us: readonly number[];
  readonly held: number;
  /** Of differences, where nothing changed. */
  readonly comparisons: readonly Comparison[];
}

export function nameOfKey({ id, aspect, view, checkpoint }: ReadingKey): string {
  return `${id}${aspect === 'change' ? ' change' : ''}, ${view === 'face-on' ? 'face on' : 'down the line'}, ${checkpoint}`;
}

export interface TrialResult {
  readonly tried: readonly Tried[];
  /** All comparisons of each pair. */
  readonly pairs: readonly (readonly Comparison[])[];
}

export function tryNothingChanged(trials: Trials): TrialResult {
  const { drawing, marking, placing } = trials;
  const always = trueReadings(trials.scenario);
  const numbers = seeded(trials.seed);
  const found = new Map<
    string,
    { key: ReadingKey; errors: number[]; us: number[]; held: number; comparisons: Comparison[] }
  >();
  const of = (key: ReadingKey) => {
    const { id, aspect, view, checkpoint } = key;
    const name = nameOfKey(key);
    const known = found.get(name) ?? {
      key: { id, aspect, view, checkpoint },
      errors: [],
      us: [],
      held: 0,
      comparisons: [],
    };
    found.set(name, known);
    return known;
  };
  const single = (reading: MeasuredReading, truth: ReturnType<typeof trueReadings>): void => {
    const right = truth(reading);
    if (right === null || reading.unit === 'px' || reading.unit.startsWith('%')) return;
    const at = of(reading);
    at.errors.push(reading.value - right);
    at.us.push(reading.u);
    if (right >= reading.interval[0] && right <= reading.interval[1]) at.held += 1;
  };
  const pairs: (readonly Comparison[])[] = [];
  for (let pair = 0; pair < trials.pairs; pair += 1) {
    const eye = drawnEye(numbers, drawing);
    const scenario = trials.players === true ? drawnPlayer(numbers, trials.scenario) : trials.scenario;
    const truth = trials.players === true ? trueReadings(scenario) : always;
    const day = (date: string): readonly (readonly MeasuredReading[])[] => {
      const cameras = drawnCameras(numbers, scenario, drawing);
      return Array.from({ length: trials.swings ?? 1 }, () => {
        const swing = drawnSwing(numbers, scenario, { cameras, eye, date }, drawing, marking);
        const parts = trials.viewsApart === true ? VIEWS.map((view) => onlyView(swing, view)) : [swing];
        const readings = parts.flatMap((part) => readSwing(part, placing)).filter(({ state }) => state === 'measured');
        return readings as readonly MeasuredReading[];
      });
    };
    const lessons = [day('2026-04-14'), day('2026-05-12')] as const;
    for (const reading of lessons.flat(2)) single(reading, truth);
    const [then, now] = lessons.map((lesson) => lesson.map((swing) => scattered(swing, numbers, drawing)));
    const comparisons = comparedLessons(then ?? [], now ?? [], trials);
    for (const comparison of comparisons) of(comparison).comparisons.push(comparison);
    pairs.push(comparisons);
  }
  const tried = [...found.values()].map((each): Tried => ({
    ...each,
    name: nameOfKey(each.key),
    truth: always(each.key),
  }));
  return { tried, pairs };
}

type Swings = readonly (readonly MeasuredReading[])[];

/** No swing of a player is like the other: his numbers scatter about those of his lesson. And no frame is named just right. */
function scattered(
  readings: readonly MeasuredReading[],
  numbers: Seeded,
  { scatter, tempo, naming }: Drawing,
): readonly MeasuredReading[] {
  const drawn = VIEWS.map((view) => {
    const off = (name: TimedCheckpoint): number => naming[name] * numbers.normal();
    return { view, takeaway: off('takeaway'), top: off('top'), impact: off('impact') };
  });
  return readings.map((reading) => {
    const by = (reading.id === 'tempo' ? tempo : (scatter[reading.unit] ?? 0)) * numbers.normal();
    const named = drawn.find(({ view }) => view === reading.view);
    return { ...reading, value: (named === undefined ? reading.value : misnamed(reading, readings, named)) + by };
  });
}

/** A time between instants that lie so far off their frames, seconds; any other reading as it is. */
function misnamed(
  { id, value, unit, view }: MeasuredReading,
  all: readonly MeasuredReading[],
  { takeaway, top, impact }: Readonly<Record<TimedCheckpoint, number>>,
): number {
  if (unit === 's') return value + (id === 'backswing' ? top - takeaway : impact - top);
  if (id !== 'tempo') return value;
  const time = (of: 'backswing' | 'downswing') => all.find((each) => each.id === of && each.view === view)?.value ?? 0;
  return (time('backswing') + top - takeaway) / (time('downswing') + impact - top);
}

/** As core/compare/compare-swings.ts does, from readings that are there. */
function comparedLessons(then: Swings, now: Swings, { goals, placing }: Trials): readonly Comparison[] {
  const lessonOf = (swings: Swings, key: MeasuredReading): Lesson | null => {
    const found = swings.flatMap((swing, i) => {
      const same = swing.find((each) => sameReading(each, key) && each.unit === key.unit);
      return same === undefined ? [] : [{ reading: same, label: `Swing ${String(i + 1)}` }];
    });
    const [first, ...others] = found.map(({ reading }) => reading);
    return first === undefined ? null : { readings: [first, ...others], labels: found.map(({ label }) => label) };
  };
  const { scatter } = placing.setUp ?? ASSUMED_SET_UP;
  const pairs = (now[0] ?? []).flatMap((key) => {
    const [before, after] = [lessonOf(then, key), lessonOf(now, key)];
    if (before === null || after === null || key.unit === 'px') return [];
    return [{ then: before, now: after, judging: { goals, pins: [], scatter: scatterIn(key, scatter) } }];
  });
  return judged(compareLessons(pairs));
}

function onlyView(swing: MarkedSwing, view: View): MarkedSwing {
  return { ...swing, clips: swing.clips.filter((clip) => clip.view === view) };
}

export function deviation(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
}

export function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

export function rootMeanSquare(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
}
