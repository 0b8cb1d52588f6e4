import { describe, expect, it } from 'vitest';
import { evaluateChain } from '../../../../core/measure/goals/chain.ts';
import type { ChainReadings, LinkState } from '../../../../core/measure/goals/chain.ts';
import { CATALOGUE } from '../../../../core/measure/catalogue/catalogue.ts';
import { chainWords, linkMissWords, linkNeedWords, missesOf } from '../../../../core/measure/words/chain-words.ts';
import { EMPTY_GOALS } from '../../../../core/measure/goals/goals.ts';
import { readSwing } from '../../../../core/measure/readings/read-swing.ts';
import { LINK_MISSES } from '../../../../core/model/goals.ts';
import type { ChainLink, Goals, WantedRange } from '../../../../core/model/goals.ts';
import { READING_IDS } from '../../../../core/model/reading.ts';
import type { Comparison, MeasuredReading, ReadingKey, Unit, Verdict } from '../../../../core/model/reading.ts';
import { SHIPPED_GOALS } from '../../../../core/parse/shipped-goals.ts';
import { chain, link, range } from '../../goals-file/sample-goals.ts';
import { ALL_SHAPES, inventedSwing } from '../invented-swing.ts';

const SHIFT: ReadingKey = { id: 'head-shift', aspect: 'value', view: 'face-on', checkpoint: 'top' };

function measured(low: number, high: number, changed: Partial<MeasuredReading> = {}): MeasuredReading {
  return {
    ...SHIFT,
    ...{ state: 'measured', unit: 'cm', value: (low + high) / 2, u: (high - low) / 3.92, interval: [low, high] },
    ...{ coverage: 1.96, budget: [], shared: [], method: 'first-order', from: [], shapes: [], notes: [] },
    ...changed,
  };
}

const wanting = (changed: Partial<WantedRange>): Goals => ({
  ...EMPTY_GOALS,
  wanted: [range({ reading: 'head-shift', checkpoints: ['top'], from: -2, to: 3, unit: 'cm', ...changed })],
});

function linkOf(
  miss: ChainLink['miss'],
  reading: MeasuredReading | null,
  swing: Partial<ChainReadings> = {},
  goals: Goals = wanting({}),
) {
  const given = { readings: reading === null ? [] : [reading], comparisons: null, club: '7 iron', ...swing };
  const [found] = evaluateChain(chain([link({ miss })]), goals, given).links;
  if (found === undefined) throw new Error('a chain lost its link');
  return found;
}

describe('a link that looks at a wanted range', () => {
  it.each<[ChainLink['miss'], number, number, LinkState]>([
    ['above-range', 3.000_001, 5, 'seen'],
    ['above-range', 3, 5, 'too close to call'],
    ['above-range', 2, 3.000_001, 'too close to call'],
    ['above-range', 2, 3, 'not seen'],
    ['above-range', 3, 3, 'not seen'],
    ['above-range', -9, -8, 'not seen'],
    ['below-range', -5, -2.000_001, 'seen'],
    ['below-range', -5, -2, 'too close to call'],
    ['below-range', -2.000_001, 0, 'too close to call'],
    ['below-range', -2, 0, 'not seen'],
    ['below-range', 8, 9, 'not seen'],
  ])('%s of -2 to 3: from %d to %d is %s; the limit belongs to the range', (miss, low, high, state) => {
    expect(linkOf(miss, measured(low, high)).state).toBe(state);
  });

  it('takes the range of the lesson’s club', () => {
    const driver = wanting({ clubs: ['driver'] });
    expect(linkOf('above-range', measured(4, 5), { club: 'Driver' }, driver).state).toBe('seen');
    expect(linkOf('above-range', measured(4, 5), {}, driver)).toMatchObject({
      state: 'not measured',
      need: { kind: 'range' },
    });
  });

  it('is not measured where there is no limit on that side, or one in another unit', () => {
    const open = wanting({ to: null });
    expect(linkOf('above-range', measured(4, 5), {}, open).need).toEqual({ kind: 'range' });
    expect(linkOf('below-range', measured(-9, -8), {}, open).state).toBe('seen');
    const share = measured(4, 5, { unit: '% head box' });
    expect(linkOf('above-range', share)).toMatchObject({ state: 'not measured', need: { kind: 'unit' } });
    expect(linkNeedWords(linkOf('above-range', share))).toContain('in cm');
    // 0 is the same in every unit.
    expect(linkOf('above-range', share, {}, wanting({ to: 0 })).state).toBe('seen');
  });
});

describe('a link that looks at a sign', () => {
  it.each<[ChainLink['miss'], number, number, LinkState]>([
    ['minus', -3, -0.000_001, 'seen'],
    ['minus', -3, 0, 'too close to call'],
    ['minus', -3, 1, 'too close to call'],
    ['minus', 0, 1, 'not seen'],
    ['plus', 0.000_001, 1, 'seen'],
    ['plus', 0, 1, 'too close to call'],
    ['plus', -1, 0, 'not seen'],
  ])('%s: from %d to %d is %s; 0 is on the other side', (miss, low, high, state) => {
    expect(linkOf(miss, measured(low, high)).state).toBe(state);
  });

  it('takes 1 for a ratio to address, and 0 for the change of one', () => {
    const ratio: { unit: Unit } = { unit: 'ratio' };
    expect(linkOf('plus', measured(1.01, 1.2, ratio)).state).toBe('seen');
    expect(linkOf('plus', measured(0.9, 1, ratio)).state).toBe('not seen');
    expect(linkOf('plus', measured(0.9, 1.1, ratio)).state).toBe('too close to call');
  });
});

describe('a link that looks at what moved since then', () => {
  const compared = (difference: number, verdict: Verdict): { comparisons: readonly Comparison[] } => {
    const reading = measured(0, 1);
    return {
      comparisons: [
        {
          ...SHIFT,
          then: reading,
          now: reading,
          difference,
          unit: 'cm',
          u: 1,
          coverage: 1.96,
          isOnTrial: true,
          verdict,
          tolerance: null,
          shows: 2.8,
          showsWithThree: null,
        },
      ],
    };
  };
  it.each<[number, Verdict, LinkState, LinkState]>([
    [-4, 'changed', 'seen', 'not seen'],
    [4, 'worth a look', 'not seen', 'seen'],
    [-0.1, 'no change', 'not seen', 'not seen'],
    [-2, "can't tell", 'too close to call', 'too close to call'],
  ])('by %d, %s: to less is %s, to more is %s', (difference, verdict, less, more) => {
    expect(linkOf('moved-down', measured(0, 1), compared(difference, verdict)).state).toBe(less);
    expect(linkOf('moved-up', measured(0, 1), compared(difference, verdict)).state).toBe(more);
  });

  it('is not measured without an earlier swing, or where that lacks the reading', () => {
    for (const comparisons of [null, []])
      expect(linkOf('moved-up', measured(0, 1), { comparisons })).toMatchObject({
        state: 'not measured',
        need: { kind: 'then' },
      });
  });
});

describe('what is not measured', () => {
  it('says what to name, place or draw', () => {
    const swing = inventedSwing(ALL_SHAPES);
    const unnamed = linkOf('minus', null);
    expect([unnamed.state, linkNeedWords(unnamed)]).toEqual([
      'not measured',
      'Name the frame of top in a clip face on.',
    ]);
    const clips = swing.clips.map((clip) => ({ ...clip, marks: [] }));
    const bare = linkOf('minus', null, { readings: readSwing({ ...swing, clips }) });
    expect([bare.state, bare.reading]).toEqual(['not measured', null]);
    expect(linkNeedWords(bare)).toMatch(/^Place head centre at top/);
  });

  it('is a number that tells nothing, too', () => {
    const idle = linkOf('minus', measured(-3, -2, { notes: ['short-line'] }));
    expect(idle).toMatchObject({ state: 'not measured', need: { kind: 'of-no-use' } });
  });

  it('is a reading of another aspect, view or checkpoint', () => {
    for (const other of [
      { aspect: 'change' },
      { view: 'down-the-line' },
      { checkpoint: 'impact' },
      { id: 'head-rise' },
    ] as const)
      expect(linkOf('minus', measured(-3, -2, other)).state).toBe('not measured');
  });
});

describe('a chain', () => {
  const links = [link({}), link({ checkpoint: 'impact' }), link({ checkpoint: 'finish' })];
  const at = (checkpoint: 'top' | 'impact' | 'finish', sign: -1 | 0 | 1) =>
    measured(sign - 0.5, sign + 0.5, { checkpoint });
  const evaluate = (...readings: readonly MeasuredReading[]) =>
    evaluateChain(chain(links), EMPTY_GOALS, { readings, comparisons: null, club: '' });

  it('holds as far as it is seen from its start; what is seen beyond a break does not count', () => {
    expect(evaluate(at('top', -1), at('impact', -1), at('finish', -1)).holds).toBe(3);
    expect(evaluate(at('top', -1), at('impact', 0), at('finish', -1)).holds).toBe(1);
    expect(evaluate(at('top', 1), at('impact', -1), at('finish', -1)).holds).toBe(0);
    expect(evaluate(at('impact', -1), at('finish', -1)).holds).toBe(0);
    expect(evaluate().links.map(({ state }) => state)).toEqual(['not measured', 'not measured', 'not measured']);
  });

  it('says what goes with what, never that one brings about the other, and where it stops', () => {
    expect(chainWords(evaluate(at('top', -1), at('impact', -1), at('finish', -1)))).toBe(
      'All of it is seen. Head shift at top goes with Head shift at impact, and with Head shift at finish.',
    );
    expect(chainWords(evaluate(at('top', -1), at('impact', -1), at('finish', 0)))).toBe(
      'Seen for 2 of 3 links from its start. Head shift at top goes with Head shift at impact. Head shift at finish: too close to call.',
    );
    expect(chainWords(evaluate(at('top', -1), at('impact', 1)))).toBe(
      'Seen for 1 of 3 links from its start. Head shift at top is seen. Head shift at impact: not seen.',
    );
    expect(chainWords(evaluate(at('impact', -1)))).toBe(
      'Nothing is seen from its start on. Head shift at top: not measured.',
    );
    const alone = evaluateChain(chain([link({})]), EMPTY_GOALS, {
      ...{ readings: [at('top', -1)], comparisons: null, club: '' },
    });
    expect(chainWords(alone)).toBe('Head shift at top is seen.');
    for (const readings of [[], [at('top', -1)], [at('top', -1), at('impact', -1)]])
      expect(chainWords(evaluate(...readings))).not.toMatch(/because|cause|leads? to/i);
  });
});

describe('every reading there is', () => {
  it('can be a link on each side that makes sense for it, and each side has words', () => {
    for (const reading of READING_IDS)
      for (const aspect of CATALOGUE[reading].aspects) {
        const offered = missesOf({ reading, aspect });
        expect(offered.length).toBeGreaterThanOrEqual(4);
        for (const miss of LINK_MISSES) expect(linkMissWords({ reading, aspect, miss })).not.toBe('');
      }
    expect(missesOf({ reading: 'tempo', aspect: 'value' })).not.toContain('plus');
    expect(missesOf({ reading: 'club-radius', aspect: 'value' })).toContain('plus');
    expect(linkMissWords({ reading: 'club-radius', aspect: 'value', miss: 'plus' })).toBe('larger than at address');
    expect(linkMissWords({ reading: 'head-shift', aspect: 'value', miss: 'minus' })).toBe('away from the target');
    expect(linkMissWords({ reading: 'hip-line', aspect: 'change', miss: 'minus' })).toBe('less than at address');
  });

  it('is held against the shipped chains in the words of its states, measured or not', () => {
    for (const shapes of [ALL_SHAPES, { plumb: false, knownLength: false, headBox: false }])
      for (const each of SHIPPED_GOALS.chains) {
        const swing = { readings: readSwing(inventedSwing(shapes)), comparisons: null, club: '7 iron' };
        for (const found of evaluateChain(each, SHIPPED_GOALS, swing).links)
          expect([found.need === null, linkNeedWords(found) === null]).toEqual(
            found.state === 'not measured' ? [false, false] : [true, true],
          );
      }
  });
});
