import { describe, expect, test } from 'vitest';
import { CATALOGUE } from '../../../core/measure/catalogue/catalogue.ts';
import { labelOf } from '../../../core/measure/words/format.ts';
import { READING_IDS, UNITS, VERDICTS, type ReadingKey } from '../../../core/model/reading.ts';
import { CHECKPOINT_LABELS, CHECKPOINTS } from '../../../core/model/words.ts';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import {
  bareNumber,
  countOfWords,
  fromToWords,
  inFewWords,
  MOST_HEADLINE_WORDS,
  shortLabel,
} from '../../../core/report/headline.ts';
import { reportOf } from '../../../core/report/lesson-report.ts';
import { phoneChoice } from '../../../core/report/phone-still.ts';
import { stillPages } from '../../../core/report/stills.ts';
import { stillText } from '../../../core/report/still-text.ts';
import { STEADY } from '../../support/steady.ts';
import { markedClip, markedSwing } from '../jobs/marked-swing.ts';

const NAMED = { address: 2, top: 9, impact: 14 } as const;
const now = markedSwing('2026-06-12', [markedClip('down-the-line', NAMED)]);
const then = markedSwing('2026-05-12', [markedClip('down-the-line', { address: 1, top: 7 }, 20)]);
const VIEW = 'down-the-line' as const;
const reportWith = (pins: readonly ReadingKey[] = [], earlier: typeof then | null = then) =>
  reportOf({ now: { ...now, pins }, then: earlier, goals: SHIPPED_GOALS, placing: STEADY });

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`);

describe('the headline', () => {
  test('has at most twelve words, whatever is read, where and in which unit, and always its name and its number', () => {
    for (const id of READING_IDS)
      for (const aspect of ['value', 'change'] as const)
        for (const unit of UNITS)
          for (const verdict of [...VERDICTS, 'too close to call'])
            for (const checkpoint of CHECKPOINTS) {
              const label = shortLabel(labelOf({ id, aspect }));
              const number = fromToWords(`−12 ± 3 ${unit}`, `14 ± 3 ${unit}`);
              const headline = inFewWords({
                label,
                where: CHECKPOINT_LABELS[checkpoint].toLowerCase(),
                number,
                verdict,
              });
              expect(countOfWords(headline), headline).toBeLessThanOrEqual(MOST_HEADLINE_WORDS);
              expect(headline).toContain(`: ${number}`);
              expect(headline.startsWith(CATALOGUE[id].label)).toBe(true);
            }
  });

  test('says a unit once, and no ±', () => {
    expect(fromToWords('105° ± 3°', '91° ± 3°')).toBe('105° → 91°');
    expect(fromToWords('−3.4 ± 1.2 cm', '2.0 ± 1.2 cm')).toBe('−3.4 → 2.0 cm');
    expect(fromToWords('0.5 ± 0.1', '0.7 ± 0.1')).toBe('0.5 → 0.7');
    expect(bareNumber('12 ± 3 % head box')).toBe('12 % head box');
  });
});

describe('a still of then and now for a phone', () => {
  test('has three lines at most, each drawn on both pictures; all else is told in the rest', () => {
    const report = reportWith();
    const { words, drawn } = phoneChoice(report, VIEW, 'top');
    expect(words.lines.length).toBeGreaterThan(0);
    expect(words.lines.length).toBeLessThanOrEqual(3);
    expect([drawn.then.length, drawn.now.length]).toEqual([words.lines.length, words.lines.length]);
    const told = [...words.lines.map(({ label }) => label), words.rest.names].join(' ').toLowerCase();
    for (const { label, comparison } of report.comparisons)
      if (comparison.checkpoint === 'top' && comparison.aspect === 'value') expect(told).toContain(label.toLowerCase());
  });

  test('its numbers are those of the sheet, without their ±', () => {
    const report = reportWith();
    for (const line of phoneChoice(report, VIEW, 'top').words.lines) {
      const same = report.comparisons.find(
        ({ label, comparison }) => comparison.checkpoint === 'top' && shortLabel(label) === line.label,
      );
      expect(line.number).toBe(fromToWords(same?.then ?? '', same?.now ?? ''));
    }
  });

  test('what nobody can tell has no line, unless the coach ticked it', () => {
    const unsure = reportWith().comparisons.find(
      ({ comparison: { verdict, checkpoint, aspect } }) =>
        verdict === "can't tell" && checkpoint === 'top' && aspect === 'value',
    );
    if (unsure === undefined) throw new Error('all can be told');
    const lineOf = (pins: readonly ReadingKey[]) =>
      phoneChoice(reportWith(pins), VIEW, 'top').words.lines.find(({ label }) => label === unsure.label);
    expect(lineOf([])).toBeUndefined();
    const { id, aspect, view, checkpoint } = unsure.comparison;
    expect(lineOf([{ id, aspect, view, checkpoint }])?.verdict).toMatch(/too close to call|changed|no change/);
  });

  test('has one still a view and checkpoint, two pictures, no time and no number of a frame', () => {
    const pages = stillPages(reportWith(), { checkpoints: ['address', 'top'], views: [VIEW], layout: 'phone' });
    expect(pages.map(({ nameParts }) => nameParts)).toEqual([
      ['then-now', 'address', 'phone'],
      ['then-now', 'top', 'phone'],
    ]);
    for (const { panels } of pages) {
      expect(panels.map(({ which }) => which)).toEqual(['then', 'now']);
      for (const { caption } of panels) expect(caption.time).toBeNull();
    }
  });
});

describe('a still of one swing for a phone', () => {
  test('tells first what misses its goal, with the word of the goal', () => {
    const { words } = phoneChoice(reportWith([], null), VIEW, 'top');
    expect(words.headline).toMatch(/^.+ at top: \S+.*$/);
    const goals = words.lines.map(({ verdict }) => verdict);
    const rank = (word: string) =>
      ['too low', 'too high'].includes(word) ? 0 : ['on target', 'too close to call', ''].indexOf(word) + 1;
    expect(goals.map(rank)).toEqual(goals.map(rank).toSorted((a, b) => a - b));
    expect(goals.some((word) => word !== '')).toBe(true);
  });

  test('has one picture, and the ticked readings where there are such', () => {
    const pins = [{ id: 'trail-knee', aspect: 'value', view: VIEW, checkpoint: 'top' }] as const;
    const [page] = stillPages(reportWith(pins, null), { checkpoints: ['top'], views: [VIEW], layout: 'phone' });
    expect(page?.panels).toHaveLength(1);
    expect(page?.phone?.lines.map(({ label }) => label)).toEqual(['Trail knee']);
    expect(page?.panels[0]?.drawn.map(({ id }) => id)).toEqual(['trail-knee']);
  });

  test('where nothing is marked says at least what it shows', () => {
    const bare = { ...now, clips: now.clips.map((clip) => ({ ...clip, marks: [] })) };
    const report = reportOf({ now: bare, then: null, goals: SHIPPED_GOALS, placing: STEADY });
    expect(phoneChoice(report, VIEW, 'address').words).toMatchObject({ headline: 'Address, down the line', lines: [] });
  });
});

describe('a still with all numbers', () => {
  test('has a row for what nobody can tell too', () => {
    const rowsOf = (layout: 'mail' | 'full') =>
      stillPages(reportWith(), { checkpoints: ['top'], views: [VIEW], layout })[0]?.comparisons.length ?? 0;
    expect(rowsOf('full')).toBe(
      reportWith().comparisons.filter(({ comparison }) => comparison.checkpoint === 'top').length,
    );
    expect(rowsOf('full')).toBeGreaterThan(rowsOf('mail'));
  });
});

test.each(['phone', 'mail', 'full'] as const)('the text of a still says what stands on it: %s', (layout) => {
  for (const earlier of [then, null]) {
    const [page] = stillPages(reportWith([], earlier), { checkpoints: ['top'], views: [VIEW], layout });
    if (page === undefined) throw new Error('there is no still');
    const text = stillText(page);
    expect(text.endsWith('\n')).toBe(true);
    for (const { caption } of page.panels)
      expect(text).toContain(`Robin at top, down the line, 7 iron, ${caption.date}.`);
    for (const { label, then: before, now: after, verdict } of page.comparisons)
      expect(text).toMatch(
        new RegExp(`^${escaped(`${label}: then ${before}, now ${after}, difference `)}.*, ${verdict}[.]$`, 'm'),
      );
    for (const { label, number } of page.phone?.lines ?? []) expect(text).toContain(`${label}: ${number}`);
    for (const { label, value } of page.panels.flatMap(({ readings }) => readings))
      expect(text).toContain(`${label} at top: ${value}`);
    expect(text).toContain('doctor or physiotherapist');
  }
});
