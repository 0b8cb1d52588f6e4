import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { AppError } from '../../../core/model/errors.ts';
import { LINK_MISSES } from '../../../core/model/goals.ts';
import { READING_IDS, UNITS } from '../../../core/model/reading.ts';
import { CHECKPOINTS, VIEWS } from '../../../core/model/words.ts';
import { parseGoalsFile, goalsFileOf } from '../../../core/parse/goals.ts';
import { at, changed, placesIn } from '../../support/json-places.ts';
import { sampleGoals } from './sample-goals.ts';

const read = (name: string): unknown =>
  JSON.parse(readFileSync(join(import.meta.dirname, '../../../resources', name), 'utf8'));
const schema = read('goals.schema.json');
const fits = new Ajv2020({ strict: true, strictTypes: false, strictRequired: false, allowUnionTypes: true }).compile(
  Object(schema),
);
const sample = () => goalsFileOf(sampleGoals());

function parses(content: unknown): boolean {
  try {
    parseGoalsFile(content);
    return true;
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    expect(error.code).toMatch(/^goals-file-(invalid|newer)$/);
    expect(error.message).toMatch(/^This .*\.$/);
    return false;
  }
}

describe('the schema and the parser say the same', () => {
  test('a file that uses every field, and the shipped goals, are good to both', () => {
    for (const file of [sample(), { $schema: 'x', ...sample() }, read('goals.json')]) {
      expect(parses(file)).toBe(true);
      expect(fits(file) || fits.errors).toBe(true);
    }
  });

  const wrong: unknown[] = [
    ...[undefined, null, true, '', ' ', 'x', 'top', 'face-on', 'cm', 'value', 'tempo', 'plus', 'baybook-pattern'],
    ...[0, -1, 1, 2, 0.5, -2, 3, 1e300, -1e300, [], [0], ['top'], ['top', 'top'], ['face-on', 'face-on'], {}],
    ...[['Driver', 'Driver'], ['Driver', ' driver '], [''], 'a'.repeat(80), 'a'.repeat(81), 'a'.repeat(600)],
    ...['a'.repeat(601), '🏌'.repeat(80), '🏌'.repeat(81), '🏌'.repeat(601), 'a\nb', 'a\u007f', ' '],
    ...[{ low: '', high: '' }, { low: '' }, [{}]],
  ];
  const places = placesIn(sample());

  test(`on each of ${String(places.length * wrong.length)} files with one value replaced or left out`, () => {
    const apart: string[] = [];
    let good = 0;
    for (const path of places)
      for (const to of wrong) {
        const file = changed(sample(), path, to);
        const parsed = parses(file);
        if (parsed) good += 1;
        // What no schema can say (see its description): limits in order, clubs that differ in more than case.
        const beyond = /^wanted\.\d\.(from|to|clubs)$/;
        if (parsed !== fits(file) && !(fits(file) && beyond.test(path.join('.'))))
          apart.push(`${path.join('.')} = ${JSON.stringify(to)}: parser ${String(parsed)}, schema ${String(!parsed)}`);
      }
    expect(apart).toEqual([]);
    expect(good).toBeGreaterThan(places.length);
  });

  test('on each object with a surplus field, also one with a name that every object knows', () => {
    for (const path of places) {
      const inner = at(sample(), path);
      if (typeof inner !== 'object' || inner === null || Array.isArray(inner)) continue;
      for (const surplus of ['surplus', 'X', 'toString', 'constructor', '__proto__', 'prototype']) {
        const more: unknown = JSON.parse(`${JSON.stringify(inner).slice(0, -1)},"${surplus}":1}`);
        const file = changed(sample(), path, more);
        expect([path.join('.'), surplus, parses(file), fits(file)]).toEqual([path.join('.'), surplus, false, false]);
      }
    }
  });

  test('what no schema can say is refused by the parser alone', () => {
    const [first, ...others] = sampleGoals().wanted;
    const [tolerance] = sampleGoals().tolerances;
    for (const file of [
      { ...sample(), wanted: [{ ...first, from: 3.1 }, ...others] },
      { ...sample(), wanted: [{ ...first, clubs: ['Driver', 'DRIVER'] }] },
      { ...sample(), tolerances: [tolerance, { ...tolerance, within: 7 }] },
    ])
      expect([parses(file), fits(file)]).toEqual([false, true]);
  });

  test('the lists of names in the schema are those of the model', () => {
    const names = (name: string) => at(schema, ['$defs', name, 'enum']);
    expect(names('reading')).toEqual([...READING_IDS]);
    expect(names('unit')).toEqual([...UNITS]);
    expect(names('checkpoint')).toEqual([...CHECKPOINTS]);
    expect(names('view')).toEqual([...VIEWS]);
    expect(at(schema, ['$defs', 'link', 'properties', 'miss', 'enum'])).toEqual([...LINK_MISSES]);
  });
});
