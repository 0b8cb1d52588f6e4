import type { Affine } from '../../core/compare/lay-over.ts';
import type { BodyPointId } from '../../core/model/body-points.ts';
import type { BookClip } from '../../core/model/book.ts';
import type { ReadingKey } from '../../core/model/reading.ts';
import type { PicturePart, TalkPane, TalkPointer } from '../../core/model/talk.ts';
import type { TalkDrawing, TalkPoint } from '../../core/talk/talk-state.ts';
import { readingsInSight } from '../bench/state/readings-in-sight.ts';
import { app } from '../shell/state/app-state.ts';
import type { AppState } from '../shell/state/app-state.ts';
import { placeOf } from '../shell/state/route.ts';
import { withMarks } from '../swing/state/swing-edit.ts';
import type { RecordingHands } from './state/recording.ts';
import type { ScreenNow } from './state/take-log.ts';

/** A picture of the page, and which one of the talk-through it is. */
interface Picture {
  readonly canvas: HTMLCanvasElement;
  readonly pane: TalkPane;
}

/** Where the pointer is in the window, CSS pixels; null: it has left. */
let pointer: { readonly left: number; readonly top: number } | null = null;

/** The instant of the input that is being dealt with: a busy page may come to it late. */
let input: number | null = null;

/** The screen as a recording sees it. */
export const screenOfWindow: RecordingHands = {
  screen: screenNow,
  follow(changed) {
    const listening = new AbortController();
    const first = { capture: true, signal: listening.signal };
    const onInput = (event: Event): void => {
      input = event.timeStamp;
      setTimeout(() => (input = null));
    };
    for (const name of ['pointerdown', 'pointermove', 'pointerup', 'keydown', 'keyup', 'click'] as const)
      window.addEventListener(name, onInput, first);
    window.addEventListener(
      'pointermove',
      ({ clientX, clientY }) => (pointer = { left: clientX, top: clientY }),
      first,
    );
    document.documentElement.addEventListener('pointerleave', () => (pointer = null), { signal: listening.signal });
    const look = (): void => changed(input ?? performance.now());
    // What a hand does is logged at once; what follows from it by itself, with the screen's next refresh.
    let next = requestAnimationFrame(function refresh() {
      look();
      next = requestAnimationFrame(refresh);
    });
    const stop = app.subscribe(look);
    return () => {
      stop();
      cancelAnimationFrame(next);
      listening.abort();
      pointer = null;
    };
  },
};

const NO_READINGS: readonly ReadingKey[] = [];

function screenNow(): ScreenNow {
  const state = app.get();
  const pictures = picturesOf(state);
  const isBench = placeOf(state.route).at === 'bench';
  return {
    panes: pictures.map(({ pane }) => pane),
    ...marksOf(state),
    marks: { shown: true, readings: isBench ? readingsInSight.get() : NO_READINGS },
    pointer: pointerIn(pictures),
  };
}

/** The large pictures in sight: of the bench the one that is marked on first, of a comparison then before now. */
function picturesOf(state: AppState): readonly Picture[] {
  const { route, bench, comparing } = state;
  if (route.at !== 'bench' && route.at !== 'comparison') return [];
  const chosen = route.at === 'bench' ? bench : comparing;
  const canvases = [...document.querySelectorAll<HTMLCanvasElement>('canvas[data-clip]')];
  const pictures = canvases.flatMap((canvas) => {
    const id = canvas.dataset['clip'];
    // Of what a hand steps the number is known before its picture is painted.
    const index = id === chosen?.clipId ? (chosen?.index ?? 0) : Number(canvas.dataset['shown'] ?? NaN);
    const pane = id === undefined ? null : paneOf(state, id, index, canvas);
    return pane === null ? [] : [{ canvas, pane }];
  });
  const first = route.at === 'bench' ? ({ canvas }: Picture) => canvas.dataset['clip'] === bench?.clipId : isThen;
  return [...pictures.filter(first), ...pictures.filter((each) => !first(each))].slice(0, 2);
}

const isThen = ({ pane }: Picture): boolean => pane.which === 'then';

function paneOf(state: AppState, clipId: string, index: number, canvas: HTMLCanvasElement): TalkPane | null {
  const now = state.swing?.clips.find(({ id }) => id === clipId);
  const clip = now ?? state.then?.clips.find(({ id }) => id === clipId);
  const frame = state.indexes[clipId]?.frames[index];
  if (clip === undefined || frame === undefined) return null;
  const part = partInSight(canvas, clip);
  return { which: now === undefined ? 'then' : 'now', view: clip.view, frame: { index, pts: frame.pts }, part };
}

const STRAIGHT: Affine = { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };

/** Where a place of the window lies in the picture on a canvas. */
function placeIn(canvas: HTMLCanvasElement, left: number, top: number): { readonly x: number; readonly y: number } {
  const { zoom, left: panLeft, top: panTop, laid } = canvas.dataset;
  const [x, y] = [(left - Number(panLeft)) / Number(zoom), (top - Number(panTop)) / Number(zoom)];
  const { a, b, c, d, e, f } = laid === undefined ? STRAIGHT : (JSON.parse(laid) as Affine);
  const area = a * d - b * c;
  return { x: (d * (x - e) - c * (y - f)) / area, y: (a * (y - f) - b * (x - e)) / area };
}

/** A tenth of a pixel is finer than any hand. */
const rounded = (value: number): number => Math.round(value * 10) / 10;

/** The part of a picture that its canvas shows; null: all of it. */
function partInSight(canvas: HTMLCanvasElement, { width, height }: BookClip): PicturePart | null {
  const { clientWidth, clientHeight } = canvas;
  const corners = [0, clientWidth].flatMap((left) => [0, clientHeight].map((top) => placeIn(canvas, left, top)));
  const [xs, ys] = [corners.map(({ x }) => x), corners.map(({ y }) => y)];
  const [left, top] = [Math.max(0, Math.min(...xs)), Math.max(0, Math.min(...ys))];
  const [right, bottom] = [Math.min(width, Math.max(...xs)), Math.min(height, Math.max(...ys))];
  const part = { x: rounded(left), y: rounded(top), width: rounded(right - left), height: rounded(bottom - top) };
  const isAll = part.x === 0 && part.y === 0 && part.width >= width && part.height >= height;
  return isAll || !(part.width > 0 && part.height > 0) ? null : part;
}

function pointerIn(pictures: readonly Picture[]): TalkPointer | null {
  if (pointer === null) return null;
  // Where one lies over the other, now is what the hand means.
  for (const [pane, { canvas }] of [...pictures.entries()].toReversed()) {
    const box = canvas.getBoundingClientRect();
    const [left, top] = [pointer.left - box.left, pointer.top - box.top];
    if (left < 0 || top < 0 || left > box.width || top > box.height) continue;
    const { x, y } = placeIn(canvas, left, top);
    return { pane, x: rounded(x), y: rounded(y) };
  }
  return null;
}

type Marks = Pick<ScreenNow, 'drawings' | 'points'>;
let drawn: { readonly of: unknown; readonly draft: unknown; readonly marks: Marks } | null = null;

/** All shapes and body points on the open swing's clips, with what is being drawn; the same value as long as none changes. */
function marksOf({ swing, bench }: AppState): Marks {
  const draft = bench?.draft ?? null;
  const clips = swing?.clips ?? [];
  if (drawn?.of === clips && drawn.draft === draft) return drawn.marks;
  const frames = clips.flatMap((clip) => {
    const live = draft === null || clip.id !== bench?.clipId ? clip : withMarks(clip, draft);
    return live.marks.map((marks) => ({
      ...marks,
      of: { which: 'now', view: clip.view, frame: marks.frame } as const,
    }));
  });
  const marks = {
    drawings: frames.flatMap(({ of, shapes }) => shapes.map((shape): TalkDrawing => ({ ...of, shape }))),
    points: frames.flatMap(({ of, points }) =>
      Object.entries(points).map(([point, place]): TalkPoint => ({ ...of, point: point as BodyPointId, place })),
    ),
  };
  drawn = { of: clips, draft, marks };
  return marks;
}
