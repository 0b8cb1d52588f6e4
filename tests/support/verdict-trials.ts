import { compareSwings } from '../../core/compare/compare-swings.ts';
import type { Pattern } from '../../core/measure/pattern/pattern.ts';
import { readSwing } from '../../core/measure/readings/read-swing.ts';
import type { PlacingErrors } from '../../core/measure/uncertainty/placing.ts';
import { seeded } from '../../core/measure/uncertainty/seeded.ts';
import type { Comparison, MeasuredReading, ReadingKey } from '../../core/model/reading.ts';
import type { MarkedSwing } from '../../core/model/swing.ts';
import { VIEWS } from '../../core/model/words.ts';
import type { View } from '../../core/model/words.ts';
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
  readonly pattern: Pattern;
  readonly placing: PlacingErrors;
  /** Another player in each pair; else always the scenario's. */
  readonly players?: boolean;
  /** Nothing is known from the other view. */
  readonly viewsApart?: boolean;
  readonly pairs: number;
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
  const { drawing, marking, pattern, placing } = trials;
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
    const day = (date: string) =>
      drawnSwing(numbers, scenario, { cameras: drawnCameras(numbers, scenario, drawing), eye, date }, drawing, marking);
    const [then, now] = [day('2026-04-14'), day('2026-05-12')];
    const parts =
      trials.viewsApart === true
        ? VIEWS.map((view) => [onlyView(then, view), onlyView(now, view)] as const)
        : [[then, now] as const];
    const comparisons = parts.flatMap(([before, after]) => compareSwings(before, after, pattern, placing).comparisons);
    for (const swing of parts.flat())
      for (const reading of readSwing(swing, placing)) if (reading.state === 'measured') single(reading, truth);
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
