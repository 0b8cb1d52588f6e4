import { createHash } from 'node:crypto';
import { appendFileSync, existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import type { MeasuredReading } from '../../core/model/reading.ts';
import { drawnPair, knownTruth } from '../support/verdict-trials.ts';
import type { DrawnPair, Trials } from '../support/verdict-trials.ts';

const ROOT = join(import.meta.dirname, '../..');
/** Whatever makes a pair's readings: with any other code they are drawn anew. What is said of them is always worked out anew. */
const MADE_BY = ['core/geometry', 'core/measure', 'core/scene'];
const DRAWN_BY = ['drawn-lessons.ts', 'off-scene.ts', 'off-camera.ts', 'marked-again.ts'];

/**
 * The pairs of these trials, one after the other. Each is written to a file as soon as it is drawn, so a run that was stopped goes
 * on where it was: a line each, and a pair that was cut off in writing is drawn again. `options`: all that says how it is drawn.
 */
export function* keptPairs(
  trials: Trials,
  swings: number,
  options: object,
  folder = join(ROOT, 'out/power'),
): Generator<DrawnPair> {
  mkdirSync(folder, { recursive: true });
  const hash = createHash('sha256').update(
    JSON.stringify([Object.entries(options).toSorted(([a], [b]) => (a < b ? -1 : 1)), swings]),
  );
  const drawnBy = DRAWN_BY.map((name) => join(ROOT, 'tests/support', name));
  for (const file of [join(ROOT, 'resources/demo-scenario.json'), ...MADE_BY.flatMap(filesIn), ...drawnBy])
    hash.update(readFileSync(file));
  const path = join(folder, `${hash.digest('hex').slice(0, 16)}.txt`);
  // Of thousands of pairs it is longer than any string may be.
  const bytes = existsSync(path) ? readFileSync(path) : Buffer.alloc(0);
  // Behind the end of the last line is nothing, or what was cut off.
  if (bytes.length > 0 && bytes.at(-1) !== NEWLINE) appendFileSync(path, '\n');
  const kept = wholeLines(bytes);
  for (let pair = 0; pair < trials.pairs; pair += 1) {
    const known = kept.next().value ?? null;
    if (known !== null) yield { lessons: known, truth: knownTruth(trials.scenario) };
    else {
      const { lessons: drawn, truth } = drawnPair(trials, pair, swings);
      const told = (lesson: DrawnPair['lessons'][0]) => {
        const copied = copiedIn(lesson);
        return lesson.map((swing) => swing.map((each) => toldOf(each, copied)));
      };
      const lessons = [told(drawn[0]), told(drawn[1])] as const;
      appendFileSync(path, `${deflateRawSync(JSON.stringify(lessons)).toString('base64')}\n`);
      if ((pair + 1) % 20 === 0) console.error(`${String(pair + 1)} of ${String(trials.pairs)} pairs`);
      yield { lessons, truth };
    }
  }
}

const NEWLINE = 10;

/** Each that can be read, in their order. */
function* wholeLines(bytes: Buffer): Generator<DrawnPair['lessons'], undefined> {
  let from = 0;
  for (let end = bytes.indexOf(NEWLINE); end >= 0; end = bytes.indexOf(NEWLINE, from)) {
    const lessons = readLessons(bytes.toString('latin1', from, end));
    from = end + 1;
    if (lessons !== null) yield lessons;
  }
  return undefined;
}

/** Names of what marks tell that two swings of a lesson have alike. */
function copiedIn(lesson: DrawnPair['lessons'][0]): ReadonlySet<string> {
  const seen = new Set<string>();
  const copied = new Set<string>();
  for (const swing of lesson) {
    const names = swing.flatMap(({ shared }) => shared.filter(({ by }) => by === 'marks').map(({ name }) => name));
    for (const name of new Set(names)) (seen.has(name) ? copied : seen).add(name);
  }
  return copied;
}

/**
 * What verdicts need of a reading. What one day has in common counts as one: only what the same coach does with the same player
 * is told by name from day to day, and marks by name from swing to swing of a lesson, as far as they were copied.
 */
function toldOf(reading: MeasuredReading, copied: ReadonlySet<string>): MeasuredReading {
  const ofPlayer = reading.shared.filter(
    ({ by, name, part }) => part !== 0 && (by === 'player' || (by === 'marks' && copied.has(name))),
  );
  const ofDay = reading.shared.filter(({ by }) => by === 'day').map(({ part }) => part);
  const day = { name: 'day', by: 'day', part: Math.hypot(...ofDay) } as const;
  const shared = ofDay.length === 0 ? ofPlayer : [...ofPlayer, day];
  return { ...reading, shared, budget: [], from: [], shapes: [] };
}

function readLessons(line: string): DrawnPair['lessons'] | null {
  try {
    return JSON.parse(inflateRawSync(Buffer.from(line, 'base64')).toString()) as DrawnPair['lessons'];
  } catch {
    return null;
  }
}

function filesIn(folder: string): readonly string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => join(parentPath, name))
    .toSorted();
}
