import { createCanvas, type Canvas, type SKRSContext2D } from '@napi-rs/canvas';
import { layoutCard, type CardContent, type CardPage } from '../film/closing-card.ts';
import { captionPlate, titlePlate } from '../film/film-texts.ts';
import { paintCard, paintOver, paintPictures } from '../film/paint-film.ts';
import { clipOfPane, lookOf, paneMarks, paneTitle } from '../film/pane-marks.ts';
import { placePanes, type PanePlace } from '../film/pane-places.ts';
import type { TalkPane } from '../model/talk.ts';
import type { MeasureText } from '../painting/text-wrap.ts';
import type { LessonReport } from '../report/lesson-report.ts';
import { FILM_SIZES, type FilmShape } from '../talk/film-plan.ts';
import type { TalkState } from '../talk/talk-state.ts';
import { registerFonts } from './fonts.ts';
import { drawerOf, picturesInPlace, type LoadedPicture } from './load-picture.ts';

/** One picture of a clip: 8-bit RGBA rows from the top, of the clip's own size. `place`: which of the pictures on the stage. */
export type ReadPanePicture = (pane: TalkPane, place: number) => Promise<Uint8Array>;

/** Paints the pictures of one video, one after the other. */
export interface FilmPainter {
  /**
   * What is seen in a state, as RGBA rows from the top, until something else is painted: the bytes are the canvas's own.
   * Clips' pictures are read and laid on the stage only where they are others than in the state before, or elsewhere.
   */
  paint(state: TalkState): Promise<Uint8Array>;
  /** The pages of the closing card, without painting them. */
  layoutCard(content: CardContent): readonly CardPage[];
  /** One of them, likewise. */
  card(page: CardPage): Uint8Array;
}

export interface FilmPainterOptions {
  readonly shape: FilmShape;
  readonly report: LessonReport;
  /** Ids of the shapes that are drawn while talking. */
  readonly drawn: ReadonlySet<string>;
  /** Whether the coach's words stand in the picture. */
  readonly burnCaptions: boolean;
  readonly read: ReadPanePicture;
}

/** @throws AppError `runtime-missing` when the type face is not there. */
export function openFilmPainter({ shape, report, drawn, burnCaptions, read }: FilmPainterOptions): FilmPainter {
  registerFonts();
  const { width, height } = FILM_SIZES[shape];
  const canvas = createCanvas(width, height);
  const ctx = contextOf(canvas);
  const stage = createCanvas(width, height);
  const stageCtx = contextOf(stage);
  const measureText: MeasureText = (text, font) => {
    ctx.font = font;
    return ctx.measureText(text).width;
  };
  let laid: readonly PanePlace[] = [];
  const loaded = new Map<
    number,
    { readonly pane: TalkPane; readonly scale: number; readonly picture: LoadedPicture }
  >();
  const loaders = new Map<number, ReturnType<typeof picturesInPlace>>();

  async function lay(places: readonly PanePlace[]): Promise<void> {
    if (places.length === laid.length && places.every((place, index) => isSame(place, laid[index]))) return;
    const drawers = [];
    for (const [index, { pane, scale }] of places.entries()) {
      let kept = loaded.get(index);
      if (kept === undefined || !isSamePicture(kept.pane, pane) || kept.scale !== scale) {
        const { clip } = clipOfPane(report, pane);
        const rgba = await read(pane, index);
        const load = loaders.get(index) ?? picturesInPlace();
        loaders.set(index, load);
        kept = { pane, scale, picture: load({ width: clip.width, height: clip.height, rgba }, scale) };
        loaded.set(index, kept);
      }
      drawers.push(drawerOf(stageCtx, kept.picture));
    }
    paintPictures(stageCtx, shape, places, drawers);
    laid = places;
  }

  return {
    async paint(state) {
      const places = placePanes(state.panes, shape, (pane) => clipOfPane(report, pane).clip);
      await lay(places);
      ctx.drawImage(stage, 0, 0);
      const { pointer, caption } = state;
      paintOver(ctx, shape, {
        places: places.map((place) => ({
          ...place,
          marks: paneMarks(place.pane, state, report, drawn),
          title: titlePlate(paneTitle(place.pane, report), place.room, shape, measureText),
          look: lookOf(place.pane, report),
        })),
        pointer: pointer === null ? null : { place: pointer.pane, at: pointer },
        caption: burnCaptions && caption !== '' ? captionPlate(caption, shape, measureText) : null,
      });
      return pixelsOf(canvas);
    },
    layoutCard: (content) => layoutCard(content, shape, measureText),
    card({ texts }) {
      paintCard(ctx, shape, texts);
      return pixelsOf(canvas);
    },
  };
}

function contextOf(canvas: Canvas): SKRSContext2D {
  const ctx = canvas.getContext('2d');
  ctx.lang = 'en';
  return ctx;
}

/** No copy: eight megabytes a picture would wait to be collected. */
const pixelsOf = (canvas: Canvas): Uint8Array => canvas.data();

function isSame(one: PanePlace, other: PanePlace | undefined): boolean {
  if (other === undefined || !isSamePicture(one.pane, other.pane)) return false;
  const [a, b] = [one.source, other.source];
  return a.x === b.x && a.y === b.y && a.width === b.width && a.height === b.height && one.scale === other.scale;
}

function isSamePicture(one: TalkPane, other: TalkPane): boolean {
  return one.which === other.which && one.view === other.view && one.frame.index === other.frame.index;
}
