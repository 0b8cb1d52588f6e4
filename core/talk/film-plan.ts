import type { Talk } from '../model/talk.ts';
import { changesOf, type TalkState } from './talk-state.ts';
import { talkLength } from './talk-time.ts';

/** Pictures a second of the video. */
export const FILM_RATE = 30;

/** The sizes of a video in pixels: for a screen, and for a phone that is held upright. */
export const FILM_SIZES = { wide: { width: 1920, height: 1080 }, phone: { width: 1080, height: 1920 } } as const;
export type FilmShape = keyof typeof FILM_SIZES;

/** What is seen for so many pictures, >= 1. */
export interface FilmRun {
  readonly state: TalkState;
  readonly pictures: number;
}

/** Text with when it begins and ends, milliseconds of the video. */
export interface FilmText {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** All that a video shows, apart from its closing card. */
export interface FilmPlan {
  readonly runs: readonly FilmRun[];
  readonly pictures: number;
  /** Milliseconds of the talk-through; its pictures last as long, to half a picture. */
  readonly length: number;
  readonly captions: readonly FilmText[];
  /** Where there are any, the first begins at 0. */
  readonly chapters: readonly FilmText[];
}

/**
 * Which picture shows what. A change is seen from the picture that begins nearest to it, so it is never off by more than
 * half a picture (17 ms). Of changes that are nearest to the same picture the last counts.
 */
export function planFilm(talk: Talk, firstChapter: string): FilmPlan {
  const length = talkLength(talk);
  const pictures = Math.max(1, pictureAt(length));
  const changes = changesOf(talk);
  const starts = changes.map(({ at }) => Math.min(pictureAt(at), pictures));
  const runs = changes.flatMap(({ state }, index) => {
    const count = (starts[index + 1] ?? pictures) - (starts[index] ?? pictures);
    return count > 0 ? [{ state, pictures: count }] : [];
  });
  const texts = (of: (state: TalkState) => string): readonly FilmText[] =>
    textsOf(
      changes.map(({ at, state }) => ({ at, text: of(state) })),
      length,
    );
  return {
    ...{ runs, pictures, length },
    captions: texts(({ caption }) => caption),
    chapters: withFirst(
      texts(({ chapter }) => chapter),
      firstChapter,
    ),
  };
}

function pictureAt(milliseconds: number): number {
  return Math.round((milliseconds * FILM_RATE) / 1000);
}

function textsOf(changes: readonly { readonly at: number; readonly text: string }[], length: number): FilmText[] {
  const begins = changes.filter(({ text }, index) => index === 0 || changes[index - 1]?.text !== text);
  return begins
    .map(({ at, text }, index) => ({ from: at, to: begins[index + 1]?.at ?? length, text }))
    .filter(({ from, to, text }) => text !== '' && from < to);
}

/** Players begin with the first chapter, wherever it starts. */
function withFirst(chapters: readonly FilmText[], title: string): readonly FilmText[] {
  const [first] = chapters;
  return first === undefined || first.from === 0 ? chapters : [{ from: 0, to: first.from, text: title }, ...chapters];
}

const WORDS_A_SECOND = 3;
const CARD_SECONDS = { least: 4, most: 20 } as const;

/** How long a card with this text stands, in pictures: long enough to be read. */
export function cardPictures(text: string): number {
  const words = text.split(/\s+/).filter((word) => word !== '').length;
  const seconds = Math.min(CARD_SECONDS.most, Math.max(CARD_SECONDS.least, words / WORDS_A_SECOND));
  return Math.round(seconds * FILM_RATE);
}
