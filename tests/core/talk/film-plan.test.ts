import { expect, test } from 'vitest';
import type { Talk } from '../../../core/model/talk.ts';
import { cardPictures, FILM_RATE, planFilm } from '../../../core/talk/film-plan.ts';
import { edited } from '../../../core/talk/talk-edits.ts';
import { seeded } from '../../support/seeded.ts';
import { frame, pane, sampleTalk } from './sample-talk.ts';

const HALF_PICTURE_MS = 1000 / FILM_RATE / 2;

test('each change is seen within half a picture of its time, and all pictures together last as long as the talk-through', () => {
  const random = seeded(5);
  const times = Array.from({ length: 300 }, () => Math.floor(random() * 120_000)).sort((a, b) => a - b);
  const talk: Talk = {
    takes: [
      {
        length: 120_000,
        sound: null,
        events: [
          { at: 0, kind: 'show', panes: [pane(0)] },
          ...times.map((at, index) => ({ at, kind: 'frame' as const, pane: 0, frame: frame(index + 1) })),
        ],
      },
    ],
    pieces: [{ take: 0, from: 0, to: 120_000 }],
    closing: { thoughts: [], drill: null },
  };
  const { runs, pictures } = planFilm(talk, 'Start');
  expect(pictures).toBe(120 * FILM_RATE);
  expect(runs.reduce((sum, run) => sum + run.pictures, 0)).toBe(pictures);
  let start = 0;
  for (const { state, pictures: count } of runs) {
    const index = state.panes[0]?.frame.index ?? 0;
    const at = index === 0 ? 0 : (times[index - 1] ?? NaN);
    expect(Math.abs((start * 1000) / FILM_RATE - at)).toBeLessThanOrEqual(HALF_PICTURE_MS + 1e-9);
    start += count;
  }
});

test('captions and chapters lie where they were said, cut as the rest; the first chapter begins at 0', () => {
  const plan = planFilm(sampleTalk(), 'Start');
  expect(plan.captions).toEqual([{ from: 500, to: 5000, text: 'Here you stand well.' }]);
  expect(plan.chapters).toEqual([
    { from: 0, to: 1000, text: 'Start' },
    { from: 1000, to: 7000, text: 'Your back' },
    { from: 7000, to: 10_000, text: 'Your hands' },
  ]);
  const cut = planFilm(edited(sampleTalk(), { kind: 'cut', spans: [{ from: 0, to: 4000 }] }), 'Start');
  expect(cut.captions).toEqual([{ from: 0, to: 1000, text: 'Here you stand well.' }]);
  expect(cut.chapters.map(({ from, text }) => [from, text])).toEqual([
    [0, 'Your back'],
    [3000, 'Your hands'],
  ]);
});

test('a talk-through shorter than a picture still has one', () => {
  const talk = edited(sampleTalk(), { kind: 'cut', spans: [{ from: 3, to: 10_000 }] });
  expect(planFilm(talk, 'Start')).toMatchObject({ pictures: 1, length: 3, runs: [{ pictures: 1 }] });
});

test('a card stands long enough to be read, and not for ever', () => {
  expect(cardPictures('two words')).toBe(4 * FILM_RATE);
  expect(cardPictures('word '.repeat(30))).toBe(10 * FILM_RATE);
  expect(cardPictures('word '.repeat(500))).toBe(20 * FILM_RATE);
});
