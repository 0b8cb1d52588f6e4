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
  /** How often each pair is compared; once when left out. */
  readonly again?: number;
  readonly seed: number;
}

/** A comparison without the readings that it is made of. */
export type Compared = Omit<Comparison, 'then' | 'now'>;

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
  readonly comparisons: readonly Compared[];
}

export function nameOfKey({ id, aspect, view, checkpoint }: ReadingKey): string {
  return `${id}${aspect === 'change' ? ' change' : ''}, ${view === 'face-on' ? 'face on' : 'down the line'}, ${checkpoint}`;
}

export interface TrialResult {
  readonly tried: readonly Tried[];
  /** All comparisons of each pair of lessons. */
  readonly pairs: readonly (readonly Compared[])[];
}

/** A reading of a single swing held against the truth. */
interface Single {
  readonly key: ReadingKey;
  readonly error: number;
  readonly u: number;
  readonly isHeld: boolean;
}

/** What was found in one pair. */
export interface PairFound {
  /** Of each swing that was drawn, both days' together. */
  readonly singles: readonly (readonly Single[])[];
  /** Of lessons with each number of swings; one or more each. */
  readonly compared: readonly { readonly swings: number; readonly comparisons: readonly Compared[] }[];
}

type Swings = readonly (readonly MeasuredReading[])[];

/** Both lessons of a pair as they are read, before the player's own scatter, and what of them is true. */
export interface DrawnPair {
  readonly lessons: readonly [Swings, Swings];
  readonly truth: ReturnType<typeof trueReadings>;
}

/** Every pair has numbers of its own, so that it is the same pair whichever others are drawn. */
function numbersOf(seed: number, pair: number): Seeded {
  return seeded((Math.imul(seed, 0x9e3779b1) + Math.imul(pair, 0x85ebca6b)) | 0);
}

/** `swings`: of each lesson. */
export function drawnPair(trials: Trials, pair: number, swings: number): DrawnPair {
  const { drawing, marking, placing } = trials;
  const numbers = numbersOf(trials.seed, pair);
  const eye = drawnEye(numbers, drawing);
  const scenario = trials.players === true ? drawnPlayer(numbers, trials.scenario) : trials.scenario;
  const day = (date: string): Swings => {
    const cameras = drawnCameras(numbers, scenario, drawing);
    return Array.from({ length: swings }, () => {
      const swing = drawnSwing(numbers, scenario, { cameras, eye, date }, drawing, marking);
      const parts = trials.viewsApart === true ? VIEWS.map((view) => onlyView(swing, view)) : [swing];
      const readings = parts.flatMap((part) => readSwing(part, placing)).filter(({ state }) => state === 'measured');
      return readings as readonly MeasuredReading[];
    });
  };
  return { lessons: [day('2026-04-14'), day('2026-05-12')], truth: knownTruth(scenario) };
}

const truths = new WeakMap<Scenario, ReturnType<typeof trueReadings>>();

export function knownTruth(scenario: Scenario): ReturnType<typeof trueReadings> {
  const known = truths.get(scenario) ?? trueReadings(scenario);
  truths.set(scenario, known);
  return known;
}

/** Numbers of the player's own swings are others than those of the marks. */
const OF_PLAYERS = 0x51ed270b;

/**
 * What is said of a pair with each number of swings. Lessons of fewer swings are parts of those of most: swings that were drawn
 * are used, round and round, and the player's scatter is drawn anew, until each number of swings was compared `again` times.
 */
export function comparedPair(
  trials: Trials,
  pair: number,
  { lessons, truth }: DrawnPair,
  counts: readonly number[],
): PairFound {
  const numbers = numbersOf(trials.seed ^ OF_PLAYERS, pair);
  const { drawing, again = 1 } = trials;
  const [then, now] = lessons;
  const singles = then.map((swing, i) => [...swing, ...(now[i] ?? [])].flatMap((each) => singleOf(each, truth)));
  const compared = counts.flatMap((swings) => {
    return Array.from({ length: again }, (_, time) => {
      const from = time * swings;
      const player = drawnScatter(numbers, drawing);
      const [before, after] = lessons.map((lesson) =>
        Array.from({ length: swings }, (__, i) => lesson[(from + i) % lesson.length] ?? []).map((swing) =>
          scattered(swing, numbers, drawing, player),
        ),
      );
      const all = comparedLessons(before ?? [], after ?? [], trials);
      return { swings, comparisons: all.map(withoutReadings) };
    });
  });
  return { singles, compared };
}

/** Thousands are kept at once. */
function withoutReadings(comparison: Comparison): Compared {
  const { id, aspect, view, checkpoint, unit, difference, u, coverage, isOnTrial } = comparison;
  const { verdict, tolerance, shows, showsWithThree } = comparison;
  return {
    ...{ id, aspect, view, checkpoint, unit, difference, u, coverage, isOnTrial },
    ...{ verdict, tolerance, shows, showsWithThree },
  };
}

function singleOf(reading: MeasuredReading, truth: ReturnType<typeof trueReadings>): readonly Single[] {
  const right = truth(reading);
  if (right === null || reading.unit === 'px' || reading.unit.startsWith('%')) return [];
  const { id, aspect, view, checkpoint, value, u, interval } = reading;
  const isHeld = right >= interval[0] && right <= interval[1];
  return [{ key: { id, aspect, view, checkpoint }, error: value - right, u, isHeld }];
}

/** What became of each reading in these pairs, with so many swings a lesson. */
export function tallied(found: readonly PairFound[], swings: number, scenario: Scenario): TrialResult {
  const truth = knownTruth(scenario);
  const all = new Map<string, { key: ReadingKey; singles: Single[]; comparisons: Compared[] }>();
  const of = ({ id, aspect, view, checkpoint }: ReadingKey) => {
    const key = { id, aspect, view, checkpoint };
    const known = all.get(nameOfKey(key)) ?? { key, singles: [], comparisons: [] };
    all.set(nameOfKey(key), known);
    return known;
  };
  const pairs = found.flatMap(({ singles, compared }) => {
    for (const single of singles.slice(0, swings).flat()) of(single.key).singles.push(single);
    const lessons = compared.filter((each) => each.swings === swings).map(({ comparisons }) => comparisons);
    for (const comparison of lessons.flat()) of(comparison).comparisons.push(comparison);
    return lessons;
  });
  const tried = [...all].map(([name, { key, singles, comparisons }]): Tried => ({
    ...{ key, name, truth: truth(key), comparisons },
    errors: singles.map(({ error }) => error),
    us: singles.map(({ u }) => u),
    held: singles.filter(({ isHeld }) => isHeld).length,
  }));
  return { tried, pairs };
}

/** The same pairs with each number of swings. */
export function tryLessons(trials: Trials, counts: readonly number[]): readonly TrialResult[] {
  const most = Math.max(...counts);
  const found = Array.from({ length: trials.pairs }, (_, pair) =>
    comparedPair(trials, pair, drawnPair(trials, pair, most), counts),
  );
  return counts.map((swings) => tallied(found, swings, trials.scenario));
}

export function tryNothingChanged(trials: Trials): TrialResult {
  const [result] = tryLessons(trials, [trials.swings ?? 1]);
  if (result === undefined) throw new Error('one number of swings gives one result');
  return result;
}

/** How many times as far as stated the readings of a player scatter, by reading. */
type PlayerScatter = (reading: ReadingKey) => number;

/**
 * As stated; or, where the statement is worth so many degrees of freedom, another player each time: half of it is in him, in whom
 * all readings are alike, and half in each reading. Both together vary as a chi-square of half of their freedom does, nearly.
 */
function drawnScatter(numbers: Seeded, { worth }: Drawing): PlayerScatter {
  if (worth === undefined) return () => 1;
  const part = (): number => {
    const squares = Array.from({ length: 2 * worth - 1 }, () => numbers.normal() ** 2);
    return Math.sqrt((2 * worth - 1) / squares.reduce((sum, each) => sum + each, 0));
  };
  const player = part();
  const known = new Map<string, number>();
  return (key) => {
    const name = nameOfKey(key);
    const factor = known.get(name) ?? player * part();
    known.set(name, factor);
    return factor;
  };
}

/** No swing of a player is like the other: his numbers scatter about those of his lesson. And no frame is named just right. */
function scattered(
  readings: readonly MeasuredReading[],
  numbers: Seeded,
  { scatter, tempo, naming }: Drawing,
  player: PlayerScatter,
): readonly MeasuredReading[] {
  const drawn = VIEWS.map((view) => {
    const off = (name: TimedCheckpoint): number => naming[name] * numbers.normal();
    return { view, takeaway: off('takeaway'), top: off('top'), impact: off('impact') };
  });
  return readings.map((reading) => {
    const usual = reading.id === 'tempo' ? tempo : (scatter[reading.unit] ?? 0);
    const by = usual * player(reading) * numbers.normal();
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
  const byName = (swings: Swings) => swings.map((swing) => new Map(swing.map((each) => [nameOfKey(each), each])));
  const lessonOf = (swings: ReturnType<typeof byName>, key: MeasuredReading): Lesson | null => {
    const found = swings.flatMap((swing, i) => {
      const same = swing.get(nameOfKey(key));
      return same?.unit === key.unit ? [{ reading: same, label: `Swing ${String(i + 1)}` }] : [];
    });
    const [first, ...others] = found.map(({ reading }) => reading);
    return first === undefined ? null : { readings: [first, ...others], labels: found.map(({ label }) => label) };
  };
  const { scatter } = placing.setUp ?? ASSUMED_SET_UP;
  const [earlier, later] = [byName(then), byName(now)];
  const pairs = (now[0] ?? []).flatMap((key) => {
    const [before, after] = [lessonOf(earlier, key), lessonOf(later, key)];
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
