import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parseSwingFile } from '../../../core/swing-file/parse-swing-file.ts';
import { AppError } from '../../../core/model/errors.ts';
import { BODY_POINTS } from '../../../core/model/body-points.ts';
import { CHECKPOINTS } from '../../../core/model/words.ts';
import { DAY } from '../../../core/parse/day.ts';
import { drawn } from '../../support/drawn.ts';
import { at, changed, placesIn } from '../../support/json-places.ts';
import { lasting, sized } from '../../support/sized.ts';
import { sampleSwing } from './sample-swing.ts';

const schema: object = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../../resources/swing-file.schema.json'), 'utf8'),
);
// strictTypes off: the schema states a type once, not again in each branch of a choice.
const fits = new Ajv2020({ strict: true, strictTypes: false, strictRequired: false }).compile(schema);

function parses(content: unknown): boolean {
  try {
    parseSwingFile(content);
    return true;
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    expect(error.code).toMatch(/^swing-file-(invalid|newer)$/);
    expect(error.message).toMatch(/^This .*\.$/);
    return false;
  }
}

describe('the schema and the parser say the same', () => {
  test('a file that uses every field is good to both', () => {
    expect(parses(sampleSwing())).toBe(true);
    expect(fits(sampleSwing()) || fits.errors).toBe(true);
    expect(fits({ $schema: 'x', ...sampleSwing() }) && parses({ $schema: 'x', ...sampleSwing() })).toBe(true);
  });

  const wrong: unknown[] = [
    ...[
      undefined,
      null,
      true,
      '',
      ' ',
      'x',
      'line',
      'yardstick',
      'plumb',
      'right',
      'face-on',
      '2026-02-30',
      '2024-02-29',
    ],
    ...[0, -1, 1, 2, 0.5, 1e-9, 1e300, -1e300, 2 ** 53, -(2 ** 53), 2 ** 53 - 1],
    ...[[], [0], {}, { num: 1, den: 1 }, { num: 0, den: 1 }, { x: 1, y: 2 }, { x: 1, y: 2, hidden: false }],
    ...[
      '0'.repeat(64),
      'F'.repeat(64),
      'a'.repeat(80),
      'a'.repeat(81),
      '🏌'.repeat(80),
      '🏌'.repeat(81),
      'a\nb',
      'a\u007f',
      '\u00a0',
      'a\0',
    ],
    ...['AAAAAAAA-1111-4111-8111-111111111111', '11111111-1111-4111-8111-11111111111'],
  ];
  const places = placesIn(sampleSwing());

  /** Of each place so many: the whole takes seconds, and neighbours try other ones. */
  const most = sized(8, wrong.length);

  test(
    `on each of ${String(places.length * most)} files with one value replaced or left out`,
    () => {
      const apart: string[] = [];
      let good = 0;
      for (const [place, path] of places.entries())
        for (const to of drawn(wrong, most * place, most)) {
          const file = changed(sampleSwing(), path, to);
          const parsed = parses(file);
          if (parsed) good += 1;
          // What no schema can say (see its description): one time stamp a frame, one entry a frame, ids once, a path in order.
          const beyond =
            /^clips\.\d\.(marks\.\d\.(frame\.(index|pts)|shapes\.\d+\.(id|places\.\d\.pts))|checkpoints\.[a-z-]+\.(index|pts))$/;
          if (parsed !== fits(file) && !(fits(file) && beyond.test(path.join('.'))))
            apart.push(
              `${path.join('.')} = ${JSON.stringify(to)}: parser ${String(parsed)}, schema ${String(!parsed)}`,
            );
        }
      expect(apart).toEqual([]);
      expect(good).toBeGreaterThan((places.length * most) / wrong.length);
    },
    lasting(60_000),
  );

  test('on each object with a surplus field, also one with a name that every object knows', () => {
    for (const path of places) {
      const inner = at(sampleSwing(), path);
      if (typeof inner !== 'object' || inner === null || Array.isArray(inner)) continue;
      for (const surplus of ['surplus', 'X', 'toString', 'constructor', '__proto__', 'prototype']) {
        const more: unknown = JSON.parse(
          `${JSON.stringify(inner).slice(0, -1)}${Object.keys(inner).length > 0 ? ',' : ''}"${surplus}":1}`,
        );
        const file = changed(sampleSwing(), path, more);
        expect([path.join('.'), surplus, parses(file), fits(file)]).toEqual([path.join('.'), surplus, false, false]);
      }
    }
  });

  test('on every day and every text like a day', () => {
    for (const year of [1899, 1900, 1904, 1999, 2000, 2023, 2024, 2096, 2100, 2400, 2800, 2999, 3000])
      for (let month = 0; month <= 13; month += 1)
        for (let date = 0; date <= 32; date += 1) {
          const day = `${String(year)}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`;
          const file = changed(sampleSwing(), ['lesson', 'date'], day);
          expect([day, fits(file)]).toEqual([day, DAY.test(day)]);
        }
  });

  test('what no schema can say is refused by the parser alone', () => {
    const swing = sampleSwing();
    const marks = at(swing, ['clips', 0, 'marks']);
    const twice = changed(swing, ['clips', 0, 'marks'], [...(Array.isArray(marks) ? marks : []), at(marks, [1])]);
    const disagreeing = changed(swing, ['clips', 0, 'checkpoints', 'lead-arm-level-down'], {
      index: 3,
      pts: 1,
      ticks: 1,
    });
    for (const file of [twice, disagreeing]) expect([parses(file), fits(file)]).toEqual([false, true]);
  });

  test('two clips of one view are refused by both', () => {
    const file = changed(sampleSwing(), ['clips', 1, 'view'], 'down-the-line');
    expect([parses(file), fits(file)]).toEqual([false, false]);
  });

  test('the lists of names in the schema are those of the model', () => {
    const clip = at(schema, ['$defs', 'clip', 'properties']);
    expect(Object.keys(Object(at(clip, ['checkpoints', 'properties'])))).toEqual([...CHECKPOINTS]);
    const points = at(schema, ['$defs', 'frameMarks', 'properties', 'points', 'properties']);
    expect(Object.keys(Object(points))).toEqual([...BODY_POINTS]);
  });

  test('every field is described, with units where it is a length', () => {
    const bare: string[] = [];
    const look = (value: unknown, path: string): void => {
      if (typeof value !== 'object' || value === null) return;
      const properties: unknown = Reflect.get(value, 'properties');
      if (typeof properties === 'object' && properties !== null && Reflect.get(value, 'additionalProperties') === false)
        for (const [name, field] of Object.entries(properties)) {
          const text =
            Reflect.get(Object(field), 'description') ??
            Reflect.get(Object(field), '$ref') ??
            Reflect.get(Object(field), 'const');
          if (text === undefined && !path.endsWith('/properties')) bare.push(`${path}/${name}`);
        }
      for (const [key, inner] of Object.entries(value)) look(inner, `${path}/${key}`);
    };
    look(schema, '');
    expect(bare).toEqual(['/student', '/lesson']);
  });
});
