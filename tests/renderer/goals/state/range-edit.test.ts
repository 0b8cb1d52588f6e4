import { describe, expect, it } from 'vitest';
import { OWN_SOURCE } from '../../../../core/measure/goals/goals-source.ts';
import type { MeasuredReading } from '../../../../core/model/reading.ts';
import type { Goals, WantedRange } from '../../../../core/model/goals.ts';
import { SHIPPED_GOALS } from '../../../../core/parse/shipped-goals.ts';
import { newRangeFor, withEntry, without } from '../../../../renderer/goals/state/goals-edit.ts';
import { beginRangeEdit } from '../../../../renderer/goals/state/range-edit.ts';
import type { RangeEdit } from '../../../../renderer/goals/state/range-edit.ts';
import { range } from '../../../core/goals-file/sample-goals.ts';

/** Goals in memory, with what the window was asked to say. */
function edited(place: number | null) {
  let goals: Goals = SHIPPED_GOALS;
  const offers: { readonly kind: string; readonly takeBack: () => void }[] = [];
  let refused = 0;
  const put = (wanted: readonly WantedRange[]): void => void (goals = { ...goals, wanted });
  const held = place === null ? null : (goals.wanted[place] ?? null);
  const edit: RangeEdit = beginRangeEdit(held, range({ from: null, to: null, basis: OWN_SOURCE }), {
    ...{ goals: () => goals, shippedGoals: () => SHIPPED_GOALS, put },
    offer: (kind, takeBack) => void offers.push({ kind, takeBack }),
    refuse: () => void (refused += 1),
  });
  return { edit, offers, put, wanted: () => goals.wanted, refused: () => refused };
}

describe('a range changed beside its reading', () => {
  it('is changed in its place with every key, says that it is the coach’s own, and is taken back whole', () => {
    const { edit, offers, wanted } = edited(0);
    edit.change({ from: null });
    edit.change({ to: 100 });
    edit.change({ from: 80 });
    expect(wanted()).toHaveLength(SHIPPED_GOALS.wanted.length);
    expect(wanted()[0]).toEqual({ ...SHIPPED_GOALS.wanted[0], from: 80, to: 100, basis: OWN_SOURCE });
    expect(offers).toEqual([]);
    edit.end();
    edit.end();
    expect(offers.map(({ kind }) => kind)).toEqual(['changed']);
    offers[0]?.takeBack();
    expect(wanted()).toEqual(SHIPPED_GOALS.wanted);
  });

  it('offers nothing where nothing was changed', () => {
    const { edit, offers, wanted } = edited(0);
    edit.end();
    expect(offers).toEqual([]);
    expect(wanted()).toBe(SHIPPED_GOALS.wanted);
  });

  it('where nothing was wanted comes in with its first change, once, and goes again', () => {
    const { edit, offers, wanted } = edited(null);
    expect(wanted()).toBe(SHIPPED_GOALS.wanted);
    edit.change({ from: 1 });
    edit.change({ to: 3 });
    expect(wanted().slice(0, -1)).toEqual(SHIPPED_GOALS.wanted);
    expect(wanted().at(-1)).toMatchObject({ from: 1, to: 3, basis: OWN_SOURCE });
    edit.end();
    expect(offers.map(({ kind }) => kind)).toEqual(['added']);
    offers[0]?.takeBack();
    expect(wanted()).toEqual(SHIPPED_GOALS.wanted);
  });

  it('is found where others came or went before it is taken back', () => {
    const { edit, offers, put, wanted } = edited(2);
    edit.change({ to: 5 });
    edit.end();
    put(without(wanted(), 0));
    offers[0]?.takeBack();
    expect(wanted()).toEqual(without(SHIPPED_GOALS.wanted, 0));
  });

  it('that was changed again elsewhere is left alone, and that is said', () => {
    const { edit, offers, put, wanted, refused } = edited(0);
    edit.change({ to: 120 });
    edit.end();
    put(withEntry(wanted(), 0, range({ words: 'Elsewhere.' })));
    offers[0]?.takeBack();
    expect(wanted()[0]).toEqual(range({ words: 'Elsewhere.' }));
    expect(refused()).toBe(1);
  });

  it('starts for the reading where it stands, in its own unit unless that is one of the picture', () => {
    const reading: Pick<MeasuredReading, 'id' | 'aspect' | 'view' | 'checkpoint' | 'unit'> = {
      ...{ id: 'hip-rise', aspect: 'value', view: 'down-the-line', checkpoint: 'top', unit: '% leg length' },
    };
    expect(newRangeFor(reading)).toMatchObject({
      ...{ reading: 'hip-rise', aspect: 'value', views: ['down-the-line'], checkpoints: ['top'], clubs: [] },
      ...{ from: null, to: null, unit: '% leg length', basis: OWN_SOURCE },
    });
    expect(newRangeFor({ ...reading, unit: 'px' }).unit).toBe('cm');
  });
});
