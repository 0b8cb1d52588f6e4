import { describe, expect, it } from 'vitest';
import { OWN_SOURCE } from '../../../../core/measure/pattern/pattern-source.ts';
import type { MeasuredReading } from '../../../../core/model/reading.ts';
import type { Pattern, WantedRange } from '../../../../core/model/pattern.ts';
import { SHIPPED_PATTERN } from '../../../../core/parse/shipped-pattern.ts';
import { newRangeFor, withEntry, without } from '../../../../renderer/pattern/state/pattern-edit.ts';
import { beginRangeEdit } from '../../../../renderer/pattern/state/range-edit.ts';
import type { RangeEdit } from '../../../../renderer/pattern/state/range-edit.ts';
import { range } from '../../../core/pattern-file/sample-pattern.ts';

/** A pattern in memory, with what the window was asked to say. */
function edited(place: number | null) {
  let pattern: Pattern = SHIPPED_PATTERN;
  const offers: { readonly kind: string; readonly takeBack: () => void }[] = [];
  let refused = 0;
  const put = (wanted: readonly WantedRange[]): void => void (pattern = { ...pattern, wanted });
  const held = place === null ? null : (pattern.wanted[place] ?? null);
  const edit: RangeEdit = beginRangeEdit(held, range({ from: null, to: null, basis: OWN_SOURCE }), {
    ...{ pattern: () => pattern, shippedPattern: () => SHIPPED_PATTERN, put },
    offer: (kind, takeBack) => void offers.push({ kind, takeBack }),
    refuse: () => void (refused += 1),
  });
  return { edit, offers, put, wanted: () => pattern.wanted, refused: () => refused };
}

describe('a range changed beside its reading', () => {
  it('is changed in its place with every key, says that it is the coach’s own, and is taken back whole', () => {
    const { edit, offers, wanted } = edited(0);
    edit.change({ from: null });
    edit.change({ to: 100 });
    edit.change({ from: 80 });
    expect(wanted()).toHaveLength(SHIPPED_PATTERN.wanted.length);
    expect(wanted()[0]).toEqual({ ...SHIPPED_PATTERN.wanted[0], from: 80, to: 100, basis: OWN_SOURCE });
    expect(offers).toEqual([]);
    edit.end();
    edit.end();
    expect(offers.map(({ kind }) => kind)).toEqual(['changed']);
    offers[0]?.takeBack();
    expect(wanted()).toEqual(SHIPPED_PATTERN.wanted);
  });

  it('offers nothing where nothing was changed', () => {
    const { edit, offers, wanted } = edited(0);
    edit.end();
    expect(offers).toEqual([]);
    expect(wanted()).toBe(SHIPPED_PATTERN.wanted);
  });

  it('where nothing was wanted comes in with its first change, once, and goes again', () => {
    const { edit, offers, wanted } = edited(null);
    expect(wanted()).toBe(SHIPPED_PATTERN.wanted);
    edit.change({ from: 1 });
    edit.change({ to: 3 });
    expect(wanted().slice(0, -1)).toEqual(SHIPPED_PATTERN.wanted);
    expect(wanted().at(-1)).toMatchObject({ from: 1, to: 3, basis: OWN_SOURCE });
    edit.end();
    expect(offers.map(({ kind }) => kind)).toEqual(['added']);
    offers[0]?.takeBack();
    expect(wanted()).toEqual(SHIPPED_PATTERN.wanted);
  });

  it('is found where others came or went before it is taken back', () => {
    const { edit, offers, put, wanted } = edited(2);
    edit.change({ to: 5 });
    edit.end();
    put(without(wanted(), 0));
    offers[0]?.takeBack();
    expect(wanted()).toEqual(without(SHIPPED_PATTERN.wanted, 0));
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
