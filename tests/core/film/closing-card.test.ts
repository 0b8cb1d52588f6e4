import { describe, expect, test } from 'vitest';
import { FILM_CAUTIONS, layoutCard, type CardContent } from '../../../core/film/closing-card.ts';
import { FILM_SIZES } from '../../../core/talk/film-plan.ts';
import { TALK_LIMITS } from '../../../core/model/talk.ts';

const measure = (text: string, font: string): number => text.length * Number(/([\d.]+)px/.exec(font)?.[1] ?? NaN) * 0.5;
const content = (change: Partial<CardContent> = {}): CardContent => ({
  ...{ firstName: 'Robin', thoughts: ['Stay tall.', 'Turn.'], cautions: FILM_CAUTIONS },
  drill: { title: 'Wall', steps: ['Stand.', 'Turn back.', 'Repeat ten times.'] },
  ...change,
});

describe.each(['wide', 'phone'] as const)('%s', (shape) => {
  const { width, height } = FILM_SIZES[shape];
  const card = (change: Partial<CardContent> = {}) => layoutCard(content(change), shape, measure);

  test('each page has every caution, and all that is to be said stands on one of them', () => {
    for (const change of [
      {},
      { thoughts: [] },
      { drill: null },
      { drill: { title: 'Wall', steps: Array(12).fill('Step back. '.repeat(9)) } },
    ]) {
      const pages = card(change);
      for (const { words } of pages) for (const caution of FILM_CAUTIONS) expect(words).toContain(caution);
      const all = pages.map(({ words }) => words).join(' ');
      const { thoughts, drill } = content(change);
      for (const text of [...thoughts, ...(drill?.steps ?? [])]) expect(all).toContain(text);
    }
  });

  test('texts stay within the picture, and no line over another, also the longest that are taken', () => {
    const long = 'word '.repeat(TALK_LIMITS.text / 5).trim();
    for (const change of [{}, { thoughts: [long, long, long], drill: { title: long, steps: Array(12).fill(long) } }])
      for (const { texts } of card(change)) {
        let bottom = 0;
        for (const { room } of texts) {
          expect(room.x >= 0 && room.x + room.width <= width).toBe(true);
          expect(room.y).toBeGreaterThanOrEqual(bottom - 1e-6);
          bottom = room.y + room.height;
        }
        expect(bottom).toBeLessThanOrEqual(height);
      }
  });

  test('a short card is one page, at its full size', () => {
    const pages = card({ thoughts: ['Stay tall.'], drill: null });
    expect(pages).toHaveLength(1);
    expect(pages[0]?.texts.map(({ text }) => text)).toContain('Key thought');
  });
});
