import { memo, useEffect, useMemo, useRef } from 'react';
import { say } from '../../../core/model/say.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { SoundEnvelope } from '../../../core/model/sound.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { isDamaged } from '../../../core/time/damaged-spans.ts';
import { loudestFrame } from '../../../core/time/sound-on-strip.ts';
import { soundOf } from '../../api.ts';
import { paintSound } from '../../canvas/paint-sound.ts';
import { app } from '../../shell/state/app-state.ts';
import { useAnswer } from '../../shell/use-answer.ts';
import { goTo } from '../state/bench-actions.ts';
import { run } from './state/playback.ts';
import { settings } from '../../shell/state/settings.ts';
import { feed } from '../../swing/feed.ts';
import styles from './film-strip.module.css';
import { HALF_THUMB as END, placeOnStrip } from './flags.ts';
import { StripCells, standIns, stripFrames } from './strip-plan.ts';

/** CSS pixels. */
const PICTURES = 36;
/** Between two pictures: the bench, and the making of the copy, come first. */
const PAUSE_MS = 25;
const WAIT_MS = 100;
/** So long after its last move a hand counts as resting. */
const REST_MS = 1500;
/** A clip that has just been opened may be moved through at once. */
const FIRST_REST_MS = 500;

/** The clip's own pictures in a row, and under them how loud it is: what the strip is pressed and dragged over. */
export const FilmStrip = memo(function FilmStrip(props: {
  readonly clip: BookClip;
  readonly index: ClipIndex;
  readonly width: number;
}) {
  const { clip, index } = props;
  const sound = useSound(clip.id);
  // As the slider over it: its first and last frame lie a little inside of its ends.
  const width = Math.max(0, props.width - 2 * END);
  return (
    <div className={styles.film} data-sound={index.sound}>
      <Pictures clip={clip} index={index} width={width} />
      {sound === null ? null : <Sound index={index} sound={sound} width={width} />}
    </div>
  );
});

/** The line through the strip where the present frame is. */
export function PresentFrame({ last, width }: { readonly last: number; readonly width: number }) {
  const lineRef = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    const follow = () => {
      const at = app.get().bench?.index ?? 0;
      const line = lineRef.current;
      if (line !== null) line.style.transform = `translateX(${String(placeOnStrip(at, last, width))}px)`;
    };
    follow();
    return app.subscribe(follow);
  }, [last, width]);
  return <span ref={lineRef} className={styles.present} aria-hidden="true" />;
}

function Pictures(props: { readonly clip: BookClip; readonly index: ClipIndex; readonly width: number }) {
  const { clip, index, width } = props;
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const { id, width: wide, height: high } = clip;
  useEffect(() => {
    const canvas = canvasRef.current;
    if (canvas === null || width <= 0) return;
    const control = new AbortController();
    const ratio = window.devicePixelRatio;
    canvas.width = Math.round(width * ratio);
    canvas.height = Math.round(PICTURES * ratio);
    const count = Math.max(1, Math.round(width / ((PICTURES * wide) / high)));
    void fillStrip(canvas, { clip: id, count, index, signal: control.signal });
    return () => control.abort();
  }, [id, index, width, wide, high]);
  return <canvas ref={canvasRef} className={styles.pictures} data-strip="0" aria-hidden="true" />;
}

interface StripOrder {
  readonly clip: string;
  readonly count: number;
  readonly index: ClipIndex;
  readonly signal: AbortSignal;
}

/**
 * First key pictures stand in, so that the whole clip is seen before there is a copy of it; then each cell gets its own frame as
 * soon as the copy has it. See-through where no picture is yet: it is not black while it waits.
 */
async function fillStrip(canvas: HTMLCanvasElement, order: StripOrder): Promise<void> {
  const { clip, index, count, signal } = order;
  const context = canvas.getContext('2d');
  if (context === null) return;
  const frames = stripFrames(index.frames.length, count);
  const cells = new StripCells(frames);
  const paint = (picture: ImageBitmap, frame: number): void => {
    context.imageSmoothingQuality = 'medium';
    for (const cell of cells.take(frame)) {
      const [left, right] = [(cell * canvas.width) / count, ((cell + 1) * canvas.width) / count].map(Math.round);
      context.drawImage(picture, left ?? 0, 0, (right ?? 0) - (left ?? 0), canvas.height);
    }
    picture.close();
    canvas.dataset['strip'] = String(cells.exact);
  };
  if (feed.copies.get()[clip]?.doing !== 'whole') await standIn(clip, standIns(index, frames), { paint, signal });
  if (signal.aborted) return;
  canvas.dataset['whole'] = 'true';
  // A copy may lack what is damaged; the strip is not worth a decode of its own.
  const waiting = new Set(frames.filter((frame, cell) => !isDamaged(index, frame) && !cells.isExact(cell)));
  while (waiting.size > 0) {
    const copied = (): number | undefined => [...waiting].find((frame) => hasCopied(clip, frame));
    await until(() => copied() !== undefined && isHandFree(), signal);
    const frame = copied();
    if (signal.aborted || frame === undefined) return;
    waiting.delete(frame);
    // By itself: that a strip is filled says nothing of where the hand is.
    const picture = await feed.single(clip, frame, 'proxy', signal).catch(() => null);
    if (signal.aborted) return picture?.close();
    if (picture !== null) paint(picture, frame);
    await pause(PAUSE_MS);
  }
}

/** Key pictures, all asked for at once: they are made in one go. A hand that moves has the machine to itself. */
async function standIn(
  clip: string,
  keys: readonly number[],
  { paint, signal }: { readonly paint: (picture: ImageBitmap, frame: number) => void; readonly signal: AbortSignal },
): Promise<void> {
  let waiting = keys;
  let quietAt = performance.now() + FIRST_REST_MS;
  const forget = app.subscribe(() => {
    if (!isHandFree()) quietAt = performance.now() + REST_MS;
  });
  while (waiting.length > 0 && !signal.aborted) {
    // Between two moves of a hand its picture is exact for a moment: that is no rest.
    await until(() => isHandFree() && performance.now() >= quietAt, signal);
    const moved = new AbortController();
    const stop = app.subscribe(() => isHandFree() || moved.abort());
    const bring = async (frame: number): Promise<readonly number[]> => {
      const picture = await feed.keyPicture(clip, frame, AbortSignal.any([signal, moved.signal])).catch(() => null);
      if (picture !== null && signal.aborted) picture.close();
      else if (picture !== null) paint(picture, frame);
      return picture === null && moved.signal.aborted ? [frame] : [];
    };
    waiting = (await Promise.all(waiting.map(bring))).flat();
    stop();
  }
  forget();
}

function hasCopied(clip: string, frame: number): boolean {
  const copy = feed.copies.get()[clip];
  return (
    copy !== undefined && (copy.doing === 'whole' || copy.ready.some(({ from, to }) => from <= frame && frame <= to))
  );
}

/** Whether the hand rests: nothing that is waited for on the bench may come later for this. */
function isHandFree(): boolean {
  const { bench } = app.get();
  return (bench === null || bench.picture === 'exact') && !run.get().running;
}

async function until(holds: () => boolean, signal: AbortSignal): Promise<void> {
  while (!signal.aborted && !holds()) await pause(WAIT_MS);
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}

function Sound(props: { readonly index: ClipIndex; readonly sound: SoundEnvelope; readonly width: number }) {
  const { index, sound, width } = props;
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const last = index.frames.length - 1;
  const loudest = useMemo(() => loudestFrame(index, sound), [index, sound]);
  useEffect(() => {
    const canvas = canvasRef.current;
    if (canvas === null || width <= 0) return;
    const repaint = () => paintSound(canvas, { width, height: canvas.clientHeight }, index, sound);
    repaint();
    const dark = matchMedia('(prefers-color-scheme: dark)');
    dark.addEventListener('change', repaint);
    const stop = settings.subscribe(repaint);
    return () => {
      stop();
      dark.removeEventListener('change', repaint);
    };
  }, [index, sound, width]);
  return (
    <div className={styles.sound}>
      <canvas ref={canvasRef} aria-hidden="true" />
      {loudest === null ? null : (
        <button
          type="button"
          className={styles.loudest}
          data-side={loudest > last / 2 ? 'left' : 'right'}
          style={{ left: placeOnStrip(loudest, last, width + 2 * END) - END }}
          aria-label={say`Loudest sound at frame ${String(loudest)}. Go there`}
          onClick={() => goTo(loudest)}
        >{say`loudest sound`}</button>
      )}
    </div>
  );
}

/** Null while it is not known, and for a clip without sound. One that cannot be read: what is wrong the picture says. */
function useSound(clipId: string): SoundEnvelope | null {
  const came = useAnswer(clipId, soundOf);
  return came !== null && 'answer' in came ? came.answer : null;
}
