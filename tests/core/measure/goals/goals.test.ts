import { describe, expect, it, test } from 'vitest';
import { CATALOGUE } from '../../../../core/measure/catalogue/catalogue.ts';
import { checkpointsOf, isReadAt, isWithdrawn, viewsOf } from '../../../../core/measure/catalogue/where-read.ts';
import { keyOfLink } from '../../../../core/measure/goals/chain.ts';
import { missesOf } from '../../../../core/measure/words/chain-words.ts';
import { holdsForClub, isWordsOnly, toleranceOf, wantedOf } from '../../../../core/measure/goals/goals.ts';
import { unitsFor } from '../../../../core/measure/catalogue/reading-units.ts';
import { readSwing } from '../../../../core/measure/readings/read-swing.ts';
import { READING_IDS } from '../../../../core/model/reading.ts';
import type { ReadingKey } from '../../../../core/model/reading.ts';
import type { Goals, WantedRange } from '../../../../core/model/goals.ts';
import { SHIPPED_GOALS } from '../../../../core/parse/shipped-goals.ts';
import { range } from '../../goals-file/sample-goals.ts';
import { ALL_SHAPES, inventedSwing } from '../invented-swing.ts';

const rise: ReadingKey = { id: 'hip-rise', aspect: 'value', view: 'down-the-line', checkpoint: 'top' };
const goalsOf = (...wanted: readonly WantedRange[]): Goals => ({ ...SHIPPED_GOALS, wanted });
const named = (words: string, changed: Partial<WantedRange> = {}) => range({ words, ...changed });
const wordsFor = (goals: Goals, key = rise, club = '7 iron') => wantedOf(goals, key, club)?.words ?? null;

describe('a wanted range', () => {
  it('holds for its own reading, aspect, views, checkpoints and clubs; an empty list is all of them', () => {
    expect(wordsFor(goalsOf(named('all')))).toBe('all');
    for (const other of [
      { reading: 'hip-depth' },
      { aspect: 'change' },
      { views: ['face-on'] },
      { checkpoints: ['impact', 'finish'] },
      { clubs: ['Driver', '8 iron'] },
      { reading: null },
    ] satisfies readonly Partial<WantedRange>[])
      expect(wordsFor(goalsOf(named('other', other)))).toBeNull();
    expect(wordsFor(goalsOf(named('this', { views: ['down-the-line'], checkpoints: ['impact', 'top'] })))).toBe('this');
  });

  it('holds for a club by its name, whatever its case and the spaces at its ends, and never by a part of it', () => {
    expect(holdsForClub({ clubs: ['7 Iron'] }, ' 7 iron ')).toBe(true);
    expect(holdsForClub({ clubs: ['7 iron'] }, '7 IRON')).toBe(true);
    expect(holdsForClub({ clubs: ['7 iron'] }, '7 irons')).toBe(false);
    expect(holdsForClub({ clubs: ['iron'] }, '7 iron')).toBe(false);
    expect(holdsForClub({ clubs: [] }, '')).toBe(true);
  });

  it('gives way to one that names the club, then the checkpoint, then the view, then to the first', () => {
    const [all, view, checkpoint, club] = [
      named('all'),
      named('view', { views: ['down-the-line'] }),
      named('checkpoint', { checkpoints: ['top'] }),
      named('club', { clubs: ['7 iron'] }),
    ] as const;
    expect(wordsFor(goalsOf(all, view, checkpoint, club))).toBe('club');
    expect(wordsFor(goalsOf(club, checkpoint, view, all))).toBe('club');
    expect(wordsFor(goalsOf(all, view, checkpoint, club), rise, 'Driver')).toBe('checkpoint');
    expect(wordsFor(goalsOf(all, view, checkpoint), { ...rise, checkpoint: 'impact' })).toBe('view');
    expect(wordsFor(goalsOf(all, named('second')))).toBe('all');
    const clubAndCheckpoint = named('both', { clubs: ['7 iron'], checkpoints: ['top'] });
    expect(wordsFor(goalsOf(club, clubAndCheckpoint))).toBe('both');
  });
});

describe('the shipped goals', () => {
  it('says that it is common practice, and that its tolerances are ours', () => {
    expect(SHIPPED_GOALS.about).toContain('common practice');
    expect(SHIPPED_GOALS.about).toContain('no published source');
    expect(SHIPPED_GOALS.about).toMatch(/choice of this program, not norms/);
    for (const { basis } of [...SHIPPED_GOALS.wanted, ...SHIPPED_GOALS.chains])
      expect(basis).toBe('common practice, no published source');
  });

  it('has limits only where the trade names them: square to the spine, in the box, toes out, neck over back', () => {
    // Common practice, no published source.
    const limits = SHIPPED_GOALS.wanted
      .filter((each) => !isWordsOnly(each))
      .map(({ reading, from, to, unit, checkpoints }) => ({ reading, from, to, unit, last: checkpoints.at(-1) }));
    expect(limits.filter(({ unit }) => unit === 'deg' || unit === 'cm')).toEqual(limits);
    expect(limits).toContainEqual({ reading: 'shoulder-to-spine', from: 90, to: 90, unit: 'deg', last: 'top' });
    expect(limits).toContainEqual({ reading: 'head-box', from: null, to: 0, unit: 'cm', last: 'top' });
    expect(limits).toContainEqual({ reading: 'neck-over-back', from: 0, to: null, unit: 'deg', last: 'address' });
    const others = ['shoulder-to-spine', 'head-box', 'neck-over-back'];
    for (const { from, to } of limits.filter(({ reading }) => reading === null || !others.includes(reading)))
      expect([from, to]).toEqual([25, 25]);
    expect(limits.some(({ from, to }) => from === 25 && to === 25)).toBe(true);
  });

  it('has the chains of the trade: shoulders too flat, and a radius that grows', () => {
    // Common practice, no published source.
    const [flat, radius] = SHIPPED_GOALS.chains;
    expect(flat?.links.slice(0, 3).map(({ reading, checkpoint, miss }) => [reading, checkpoint, miss])).toEqual([
      ['shoulder-to-spine', 'top', 'above-range'],
      ['head-shift', 'top', 'minus'],
      ['upper-centre-shift', 'impact', 'minus'],
    ]);
    expect(radius?.links[0]).toMatchObject({ reading: 'club-radius', checkpoint: 'impact', miss: 'plus' });
    for (const { leadsTo } of SHIPPED_GOALS.chains) expect(leadsTo).toMatch(/ground before the ball/);
  });

  it('lists nothing where its reading is never made', () => {
    const { wanted, tolerances, chains } = SHIPPED_GOALS;
    for (const { reading, aspect, unit, checkpoints, views } of wanted) {
      if (reading === null) continue;
      const entry = CATALOGUE[reading];
      expect([reading, entry.aspects.includes(aspect), unitsFor(reading).includes(unit)]).toEqual([
        reading,
        true,
        true,
      ]);
      const within = views.length === 0 ? viewsOf(reading) : views;
      expect(checkpointsOf(reading, within)).toEqual(expect.arrayContaining([...checkpoints]));
      expect(viewsOf(reading)).toEqual(expect.arrayContaining([...views]));
    }
    for (const { reading, aspect, unit } of tolerances) {
      expect(isWithdrawn(reading)).toBe(false);
      expect(CATALOGUE[reading].aspects).toContain(aspect);
      expect(unitsFor(reading)).toContain(unit);
    }
    for (const link of chains.flatMap(({ links }) => links)) {
      const entry = CATALOGUE[link.reading];
      expect(entry.aspects).toContain(link.aspect);
      expect(isReadAt(keyOfLink(link))).toBe(true);
      expect(missesOf(link)).toContain(link.miss);
    }
  });

  it('gives a link that looks at a range the limit it looks at', () => {
    for (const { reading, aspect, view, checkpoint, miss } of SHIPPED_GOALS.chains.flatMap(({ links }) => links)) {
      const wanted = wantedOf(SHIPPED_GOALS, { id: reading, aspect, view, checkpoint }, '7 iron');
      if (miss === 'above-range') expect(wanted?.to).toEqual(expect.any(Number));
      if (miss === 'below-range') expect(wanted?.from).toEqual(expect.any(Number));
    }
  });

  it('has a tolerance by reading, aspect and unit, and none for another unit', () => {
    expect(toleranceOf(SHIPPED_GOALS, 'tempo', 'value', 'ratio')).toBe(0.3);
    expect(toleranceOf(SHIPPED_GOALS, 'tempo', 'value', 'deg')).toBeNull();
  });
});

test('every unit that a reading comes in is one in which it can be wanted, but for pixels and times on screen', () => {
  const swings = [ALL_SHAPES, { ...ALL_SHAPES, knownLength: false }].map((shapes) => inventedSwing(shapes));
  const bare = inventedSwing({ plumb: false, knownLength: false, headBox: false });
  for (const reading of [...swings, bare].flatMap((swing) => readSwing(swing))) {
    if (reading.state === 'missing' || reading.unit === 'px' || reading.unit === 's on screen') continue;
    expect([reading.id, unitsFor(reading.id).includes(reading.unit)]).toEqual([reading.id, true]);
  }
  for (const id of READING_IDS) expect(unitsFor(id).length).toBeGreaterThan(0);
  expect(unitsFor(null)).not.toContain('px');
});
