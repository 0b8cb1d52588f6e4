import { describe, expect, it } from 'vitest';
import { parseGoalsFile, goalsFileOf } from '../../../core/parse/goals.ts';
import { READING_IDS, UNITS } from '../../../core/model/reading.ts';
import { expectThrown } from '../../support/trouble.ts';
import { GOALS_OF_BEFORE } from '../goals-file/goals-of-before.ts';
import { range, sampleGoals } from '../goals-file/sample-goals.ts';

const file = goalsFileOf(sampleGoals());
const tolerance = { reading: 'tempo', aspect: 'value', unit: 'ratio', within: 0.2 };
const [chain] = file.chains;

describe('a goals file', () => {
  it('comes back as it was written, through text too', () => {
    expect(parseGoalsFile(file)).toEqual(sampleGoals());
    expect(parseGoalsFile(JSON.parse(JSON.stringify(file)))).toEqual(sampleGoals());
  });

  it('of before opens as it did, and is written with the same words again', () => {
    const before: unknown = JSON.parse(GOALS_OF_BEFORE);
    const read = parseGoalsFile(before);
    expect(read.wanted[0]).toMatchObject({ reading: 'upper-centre-shift', to: 2.5, basis: 'invented' });
    expect({ $schema: './pattern.schema.json', ...goalsFileOf(read) }).toEqual(before);
  });

  it('may speak of every reading in every unit', () => {
    const wanted = READING_IDS.flatMap((reading) => UNITS.map((unit) => range({ reading, unit }))).slice(0, 500);
    expect(parseGoalsFile({ ...file, wanted }).wanted).toEqual(wanted);
  });

  it.each<[string, unknown, RegExp]>([
    ['no object', null, /^This is not a goals file: the content must be an object\.$/],
    ['a list', [], /^This is not a goals file: format is missing\.$/],
    ['another file', { format: 'baybook-swing', version: 1 }, /format must be baybook-pattern/],
    ['no name', { ...file, name: ' ' }, /: name must not be empty\.$/],
    ['no list', { ...file, wanted: {} }, /: wanted must be a list\.$/],
    ['no tolerances', { ...file, tolerances: undefined }, /: tolerances is missing\.$/],
    ['a field too many', { ...file, ranges: [] }, /: ranges is not a known field\.$/],
    [
      'an unknown reading',
      { ...file, tolerances: [{ ...tolerance, reading: 'luck' }] },
      /: tolerances\[0\]\.reading must be back-incline or /,
    ],
    [
      'an unknown unit',
      { ...file, tolerances: [{ ...tolerance, unit: 'mm' }] },
      /: tolerances\[0\]\.unit must be deg or px or /,
    ],
    [
      'a tolerance of nothing',
      { ...file, tolerances: [{ ...tolerance, within: 0 }] },
      /: tolerances\[0\]\.within must be more than 0\.$/,
    ],
    [
      'a tolerance in words',
      { ...file, tolerances: [{ ...tolerance, within: '2' }] },
      /: tolerances\[0\]\.within must be a number\.$/,
    ],
    ['a tolerance twice', { ...file, tolerances: [tolerance, tolerance] }, /: tolerances must have one entry/],
    [
      'limits the wrong way round',
      { ...file, wanted: [range({}), range({ from: 4, to: 3 })] },
      /: wanted\[1\] must not end before it begins\.$/,
    ],
    ['a limit of infinity', { ...file, wanted: [range({ to: Infinity })] }, /wanted\[0\]\.to must be a finite number/],
    ['a limit of NaN', { ...file, wanted: [range({ from: NaN })] }, /wanted\[0\]\.from must be a number/],
    [
      'a club twice',
      { ...file, wanted: [range({ clubs: ['Driver', 'driver'] })] },
      /wanted\[0\]\.clubs must name each once/,
    ],
    ['a club of nothing', { ...file, wanted: [range({ clubs: [' '] })] }, /wanted\[0\]\.clubs\[0\] must not be empty/],
    ['words without end', { ...file, about: 'x'.repeat(601) }, /: about must have at most 600 characters\.$/],
    [
      'a chain without links',
      { ...file, chains: [{ ...chain, links: [] }] },
      /: chains\[0\]\.links must have a link\.$/,
    ],
    [
      'a link that misses nowhere',
      { ...file, chains: [{ ...chain, links: [{ ...chain?.links[0], miss: 'left' }] }] },
      /: chains\[0\]\.links\[0\]\.miss must be below-range or /,
    ],
  ])('is refused with the place and the rule: %s', (_, content, sentence) => {
    expectThrown(() => parseGoalsFile(content), 'goals-file-invalid', sentence);
  });

  it('of a newer version is told apart from a wrong one, whatever else is in it', () => {
    const newer = { format: 'baybook-pattern', version: 2, anything: true };
    expectThrown(() => parseGoalsFile(newer), 'goals-file-newer', /version 2; this Baybook reads up to version 1/);
    expectThrown(() => parseGoalsFile({ ...file, version: 0 }), 'goals-file-invalid');
  });
});
