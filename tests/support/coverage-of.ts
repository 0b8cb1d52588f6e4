import { CATALOGUE } from '../../core/measure/catalogue/catalogue.ts';
import { readSwing } from '../../core/measure/readings/read-swing.ts';
import { seeded } from '../../core/measure/uncertainty/seeded.ts';
import type { Seeded } from '../../core/measure/uncertainty/seeded.ts';
import type { MeasuredReading, ReadingKey } from '../../core/model/reading.ts';
import type { MarkedSwing } from '../../core/model/swing.ts';
import { CHECKPOINTS } from '../../core/model/words.ts';
import type { Checkpoint } from '../../core/model/words.ts';
import { checkpointFrames } from '../../core/scene/checkpoint-frames.ts';
import type { CheckpointFrames, Scenario } from '../../core/scene/scenario.ts';
import { trueOnGround } from './ground-truth.ts';
import { markedAgain } from './marked-again.ts';
import { STEADY } from './steady.ts';

/** One reading over many markings. */
export interface Covered {
  readonly name: string;
  /** Part of the markings whose 95 % interval held the truth, of those in which it was measured at all. */
  readonly part: number;
  /** Markings in which it was measured, and of these by Monte Carlo. */
  readonly measured: number;
  readonly byTrials: number;
  readonly truth: number;
  /** Standard deviation of the values, and the mean of the u that they came with. */
  readonly scatter: number;
  readonly meanU: number;
}

export interface Scene {
  readonly scenario: Scenario;
  readonly seen: MarkedSwing;
  readonly ideal: MarkedSwing;
}

export const nameOf = ({ id, aspect, view, checkpoint }: ReadingKey): string =>
  `${id}${aspect === 'change' ? ' change' : ''}, ${view}, ${checkpoint}`;

function measuredIn(swing: MarkedSwing): readonly MeasuredReading[] {
  return readSwing(swing, STEADY).filter((reading) => reading.state === 'measured');
}

/** Reads a scene from `markings` markings and counts how often each interval holds what is true. */
export function coverageOf(
  { scenario, seen, ideal }: Scene,
  click: number,
  markings: number,
  seed: number,
): readonly Covered[] {
  const numbers = seeded(seed);
  const frames = checkpointFrames(scenario);
  const exact = new Map(measuredIn(ideal).map((reading) => [nameOf(reading), reading]));
  const counts = new Map<string, { truth: number; held: number; trials: number; values: number[]; us: number }>();
  for (let marking = 0; marking < markings; marking += 1) {
    const truth = truthFor(scenario, frames, numbers);
    for (const reading of measuredIn(markedAgain(seen, click, numbers))) {
      const name = nameOf(reading);
      const right = exact.get(name);
      if (right === undefined || right.unit !== reading.unit) throw new Error(`${name} is read in another unit`);
      const value = truth(right);
      const count = counts.get(name) ?? { truth: right.value, held: 0, trials: 0, values: [], us: 0 };
      counts.set(name, count);
      if (value >= reading.interval[0] && value <= reading.interval[1]) count.held += 1;
      if (reading.method === 'monte-carlo') count.trials += 1;
      count.values.push(reading.value);
      count.us += reading.u;
    }
  }
  return [...counts].map(([name, { truth, held, trials, values, us }]) => {
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    return {
      name,
      part: held / values.length,
      measured: values.length,
      byTrials: trials,
      truth,
      scatter: Math.sqrt(squares / (values.length - 1)),
      meanU: us / values.length,
    };
  });
}

/**
 * How far the named frame lies from the instant that is meant, seconds, one standard deviation. Coaches who name one clip's
 * frames differ by a frame or two at 60 to 120 a second: some 15 ms apart at the top, so each by 15 / sqrt(2). Impact is one of
 * two frames.
 */
const TOP_OFF = 0.0106;
const CHOICE_FRAMES = 0.5;

/**
 * The takeaway (shaft level) is a passage and no turning place: coaches differ in how far off level they still call level.
 * Each marking is another coach's, sure to 10 to 20 ms (one standard deviation, seconds here), any between as likely. The
 * coach's frames lie evenly within sqrt(3) of that, never beyond.
 */
const TAKEAWAY_OFF = [0.01, 0.02] as const;

/**
 * What is true in one marking. Of a reading of the ground: the scene's own. Of a time: that of events anywhere within half a
 * frame of the named ones, misnamed besides. Of all else: the exact marks' value. What
 * cameras, depths and opinions of joints add is tried in verdicts.test.ts.
 */
function truthFor(scenario: Scenario, frames: CheckpointFrames, numbers: Seeded): (exact: MeasuredReading) => number {
  const between = ([low, high]: readonly [number, number]): number => low + (high - low) * numbers.uniform();
  const misnamed = (name: Checkpoint): number => {
    const choice = (CHOICE_FRAMES * numbers.normal()) / scenario.framesPerSecond;
    if (name === 'takeaway') return choice + Math.sqrt(3) * between(TAKEAWAY_OFF) * between([-1, 1]);
    return name === 'top' ? choice + TOP_OFF * numbers.normal() : choice;
  };
  const event = new Map(
    CHECKPOINTS.map((name) => [
      name,
      (frames[name] + numbers.uniform() - 0.5) / scenario.framesPerSecond + misnamed(name),
    ]),
  );
  return ({ id, checkpoint, value }) => {
    const onGround = trueOnGround(scenario, frames, id, checkpoint);
    if (onGround !== null) return onGround;
    const entry = CATALOGUE[id];
    if ('spans' in entry) return entry.compute(entry.spans.map((name) => event.get(name) ?? Number.NaN)) ?? Number.NaN;
    return value;
  };
}

/** What a count of 95 % in so many markings may be off by: 2 %, four standard errors, in 2,000. */
export const slackOf = (markings: number): number => 0.02 * Math.sqrt(2000 / markings);

/** The table, for people. */
export function tableOf(covered: readonly Covered[]): string {
  return covered
    .map(({ name, part, measured, byTrials, truth, scatter, meanU }) =>
      [
        `${(100 * part).toFixed(2)} %`,
        name,
        `truth ${truth.toFixed(3)}`,
        `scatter ${scatter.toFixed(3)}`,
        `mean u ${meanU.toFixed(3)}`,
        `of ${String(measured)}`,
        byTrials > 0 ? `${String(byTrials)} by trials` : '',
      ].join('; '),
    )
    .join('\n');
}
