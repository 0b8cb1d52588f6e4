import { useEffect, useMemo, useRef, useState } from 'react';
import type { PointerEvent as ReactPointer } from 'react';
import { say } from '../../core/model/say.ts';
import type { BookSwing } from '../../core/model/book.ts';
import type { PicturePoint, Shape } from '../../core/model/mark.ts';
import type { Talk } from '../../core/model/talk.ts';
import { captionPlate, titlePlate } from '../../core/film/film-texts.ts';
import { paintOver, paintPictures } from '../../core/film/paint-film.ts';
import { clipOfPane, lookOf, paneMarks, paneTitle } from '../../core/film/pane-marks.ts';
import { placePanes, type PanePlace } from '../../core/film/pane-places.ts';
import { kindOf } from '../../core/shapes/shapes.ts';
import type { LessonReport } from '../../core/report/lesson-report.ts';
import { FILM_SIZES } from '../../core/talk/film-plan.ts';
import { drawnMarks, NOTHING_SHOWN, stateAt, type TalkState } from '../../core/talk/talk-state.ts';
import { useStore } from '../shell/state/store.ts';
import { changeTalk } from '../swing/state/edit-actions.ts';
import { pick } from '../tools/pick.ts';
import { previewPictures } from './preview-pictures.ts';
import { cursor } from './state/cursor.ts';
import styles from './put-right.module.css';

const SIZE = FILM_SIZES.wide;
/** How near a press must come to a drawing to take it, pixels of the video. */
const REACH = 24;

interface PreviewProps {
  readonly talk: Talk;
  readonly swing: BookSwing;
  readonly then: BookSwing | null;
  readonly report: LessonReport;
}

/** What the video shows at the cursor, by the video's own painter. A drawing is moved by dragging it. */
export function Preview({ talk, swing, then, report }: PreviewProps) {
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const time = useStore(cursor, (state) => state.time);
  const playing = useStore(cursor, (state) => state.playing);
  const [arrived, setArrived] = useState(0);
  const drawn = useMemo(() => drawnMarks(talk), [talk]);
  const state = useMemo(() => stateAt(talk, time) ?? NOTHING_SHOWN, [talk, time]);
  const [held, setHeld] = useState<Held | null>(null);
  const swings = useMemo(() => ({ now: swing, then }), [swing, then]);
  const pictures = useRef<ReturnType<typeof previewPictures> | null>(null);
  useEffect(() => {
    const opened = previewPictures(swings, () => setArrived((count) => count + 1));
    pictures.current = opened;
    return () => opened.close();
  }, [swings]);

  const shown = useMemo(() => (held === null ? state : withShape(state, held.shape)), [state, held]);
  const places = useMemo(
    () => placePanes(shown.panes, 'wide', (pane) => clipOfPane(report, pane).clip),
    [shown.panes, report],
  );

  useEffect(() => {
    const canvas = canvasRef.current;
    const context = canvas?.getContext('2d') ?? null;
    if (canvas === null || context === null) return;
    const ratio = (canvas.clientWidth * window.devicePixelRatio) / SIZE.width;
    canvas.width = Math.max(1, Math.round(SIZE.width * ratio));
    canvas.height = Math.max(1, Math.round(SIZE.height * ratio));
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    const drawers = places.map(({ pane }, place) => {
      const picture = pictures.current?.of(place, pane, playing ? 'proxy' : 'sharp') ?? null;
      const { width } = clipOfPane(report, pane).clip;
      return (source: Box, target: Box): void => {
        if (picture === null) return;
        // A quick picture is smaller than the clip.
        const by = picture.width / width;
        const [x, y, w, h] = [source.x * by, source.y * by, source.width * by, source.height * by];
        context.drawImage(picture, x, y, w, h, target.x, target.y, target.width, target.height);
      };
    });
    const measure = (text: string, font: string): number => {
      context.font = font;
      return context.measureText(text).width;
    };
    paintPictures(context, 'wide', places, drawers);
    const { pointer, caption } = shown;
    paintOver(context, 'wide', {
      places: places.map((place) => ({
        ...place,
        marks: paneMarks(place.pane, shown, report, drawn),
        title: titlePlate(paneTitle(place.pane, report), place.room, 'wide', measure),
        look: lookOf(place.pane, report),
      })),
      pointer: pointer === null ? null : { place: pointer.pane, at: pointer },
      caption: caption === '' ? null : captionPlate(caption, 'wide', measure),
    });
  }, [places, shown, report, drawn, playing, arrived]);

  const onDown = (event: ReactPointer<HTMLCanvasElement>): void => {
    const taken = drawingAt(placeOf(event), places, state);
    if (taken === null) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    setHeld(taken);
  };
  const onMove = (event: ReactPointer<HTMLCanvasElement>): void => {
    const place = held === null ? undefined : places[held.place];
    if (held === null || place === undefined) return;
    const at = inPicture(placeOf(event), place);
    const by = { x: at.x - held.from.x, y: at.y - held.from.y };
    setHeld({ ...held, shape: kindOf(held.original).moved(held.original, null, by) });
  };
  const onUp = (): void => {
    if (held !== null && held.shape !== held.original) changeTalk({ kind: 'move-drawing', shape: held.shape });
    setHeld(null);
  };
  return (
    <canvas
      ref={canvasRef}
      className={styles.preview}
      role="img"
      aria-label={say`The video here: ${state.panes.map((pane) => paneTitle(pane, report)).join(say` and `)}`}
      onPointerDown={onDown}
      onPointerMove={onMove}
      onPointerUp={onUp}
      onPointerCancel={() => setHeld(null)}
    />
  );
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A drawing in the hand: as it was, as it is now, and where it was taken, in its picture. */
interface Held {
  readonly place: number;
  readonly original: Shape;
  readonly shape: Shape;
  readonly from: PicturePoint;
}

function placeOf(event: ReactPointer<HTMLCanvasElement>): PicturePoint {
  const { left, top, width } = event.currentTarget.getBoundingClientRect();
  const scale = SIZE.width / width;
  return { x: (event.clientX - left) * scale, y: (event.clientY - top) * scale };
}

function inPicture({ x, y }: PicturePoint, { source, target, scale }: PanePlace): PicturePoint {
  return { x: source.x + (x - target.x) / scale, y: source.y + (y - target.y) / scale };
}

function drawingAt(at: PicturePoint, places: readonly PanePlace[], { drawings }: TalkState): Held | null {
  for (const [place, { pane, room, scale, ...rest }] of places.entries()) {
    if (at.x < room.x || at.x > room.x + room.width || at.y < room.y || at.y > room.y + room.height) continue;
    const from = inPicture(at, { pane, room, scale, ...rest });
    const here = drawings.filter(({ which, view }) => which === pane.which && view === pane.view);
    const shapes = here.map(({ shape }) => shape);
    const taken = pick({ frame: pane.frame, points: {}, shapes }, from, REACH / scale);
    const original = shapes.find(({ id }) => taken?.kind === 'shape' && id === taken.id);
    if (original !== undefined) return { place, original, shape: original, from };
  }
  return null;
}

function withShape(state: TalkState, shape: Shape): TalkState {
  const drawings = state.drawings.map((each) => (each.shape.id === shape.id ? { ...each, shape } : each));
  return { ...state, drawings };
}
