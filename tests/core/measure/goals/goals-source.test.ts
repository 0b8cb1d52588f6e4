import { describe, expect, it } from 'vitest';
import { changedChain, changedRange, OWN_SOURCE, sourceSentence } from '../../../../core/measure/goals/goals-source.ts';
import { isWordsOnly } from '../../../../core/measure/goals/goals.ts';
import type { Chain, WantedRange } from '../../../../core/model/goals.ts';
import { parseGoalsFile, goalsFileOf } from '../../../../core/parse/goals.ts';
import { SHIPPED_GOALS } from '../../../../core/parse/shipped-goals.ts';
import { range } from '../../goals-file/sample-goals.ts';

const spine = shippedRange('shoulder-to-spine');
const remark = shippedRange('hip-line');
const SHIPPED_SOURCE = spine.basis;
const change = (before: WantedRange, ...parts: readonly Partial<WantedRange>[]): WantedRange =>
  parts.reduce<WantedRange>((now, part) => changedRange(now, part, SHIPPED_GOALS), before);

function shippedRange(reading: WantedRange['reading']): WantedRange {
  const found = SHIPPED_GOALS.wanted.find((each) => each.reading === reading);
  if (found === undefined) throw new Error(`the shipped goals have no ${String(reading)}`);
  return found;
}

describe('the source of a wanted range', () => {
  const others: readonly Partial<WantedRange>[] = [
    { from: 85 },
    { to: null },
    { unit: 'cm' },
    { aspect: 'change' },
    { views: ['face-on'] },
    { checkpoints: ['top'] },
    { clubs: ['Driver'] },
    { reading: 'hip-line' },
  ];
  it.each(others)('is no longer the shipped one where something else is wanted: %o', (part) => {
    expect(change(spine, part)).toEqual({ ...spine, ...part, basis: OWN_SOURCE });
  });

  it('stays the shipped one where only a remark is changed, or nothing', () => {
    const miss = { low: 'Too steep.', high: '' };
    expect(change(spine, { words: 'Square.' }, { miss }, { from: 90 })).toEqual({ ...spine, words: 'Square.', miss });
  });

  it('is the shipped one again once the same is wanted again, over whatever was typed on the way', () => {
    const typed = [{ from: null }, { to: 11 }, { to: 110 }, { from: 100 }, { clubs: ['Driver'] }];
    expect(change(spine, ...typed).basis).toBe(OWN_SOURCE);
    const back = [{ clubs: [] }, { from: null }, { to: 90 }, { from: 90 }];
    expect(change(spine, ...typed, ...back)).toEqual(spine);
  });

  it('does not hang on the order of checkpoints', () => {
    const turned = change(spine, { checkpoints: ['top', 'lead-arm-level'] });
    expect(turned.basis).toBe(SHIPPED_SOURCE);
  });

  it('stays as the coach types it, with whatever limits', () => {
    const named = change(spine, { from: 80 }, { basis: 'The notes of a course' });
    expect(change(named, { to: 100 }, { from: 90 }, { to: 90 }).basis).toBe('The notes of a course');
    expect(change(spine, { basis: '' }, { to: 95 }).basis).toBe('');
    expect(change(range({}), { from: -5 }).basis).toBe('invented');
    // Word for word what ships: it stays until something else is wanted there.
    const same = change(spine, { to: 95 }, { basis: SHIPPED_SOURCE });
    expect(same.basis).toBe(SHIPPED_SOURCE);
    expect(change(same, { words: 'Nearly square.' }).basis).toBe(SHIPPED_SOURCE);
  });

  it('of an entry without limits goes with its words, which are all it says', () => {
    expect(isWordsOnly(remark)).toBe(true);
    expect(change(remark, { words: 'Keep it bent.' }).basis).toBe(OWN_SOURCE);
    expect(change(remark, { words: 'Keep it bent.' }, { words: remark.words })).toEqual(remark);
    expect(change(remark, { from: 0 }).basis).toBe(OWN_SOURCE);
    expect(change(remark, { from: 0 }, { from: null })).toEqual(remark);
  });

  it('is part of the file as it was before: the format is the same', () => {
    const goals = { ...SHIPPED_GOALS, wanted: [change(spine, { from: 80 })] };
    expect(parseGoalsFile(JSON.parse(JSON.stringify(goalsFileOf(goals))))).toEqual(goals);
  });
});

describe('the source of a chain', () => {
  const flat = SHIPPED_GOALS.chains[0];
  if (flat === undefined) throw new Error('no chain ships');
  const changeIt = (part: Partial<Chain>, before: Chain = flat): Chain => changedChain(before, part, SHIPPED_GOALS);

  it('goes with its links and what they lead to, not with its name', () => {
    expect(changeIt({ name: 'Flat' }).basis).toBe(flat.basis);
    expect(changeIt({ leadsTo: 'A thin strike.' }).basis).toBe(OWN_SOURCE);
    const shorter = changeIt({ links: flat.links.slice(1) });
    expect(shorter.basis).toBe(OWN_SOURCE);
    expect(changeIt({ links: flat.links }, shorter)).toEqual(flat);
    expect(changeIt({ links: flat.links.slice(1) }, { ...flat, basis: 'A course' }).basis).toBe('A course');
  });
});

it('is said as one sentence, or not at all', () => {
  expect(sourceSentence('common practice')).toBe('Where this is from: common practice.');
  expect(sourceSentence('A course, 2025. ')).toBe('Where this is from: A course, 2025.');
  expect(sourceSentence('  ')).toBeNull();
});
