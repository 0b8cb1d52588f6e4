import { memo, useEffect, useMemo, useRef } from 'react';
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

/** CSS pixels. */
const PICTURES = 36;
/** Between two pictures: the bench, and the making of the copy, come first. */
const PAUSE_MS = 25;
const WAIT_MS = 250;

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

/** One picture after the other, as far as the proxy has them; what it does not have yet is waited for. */
async function fillStrip(canvas: HTMLCanvasElement, order: StripOrder): Promise<void> {
  const { clip, count, index, signal } = order;
  const frameCount = index.frames.length;
  // See-through where no picture is yet: it is not black while it waits.
  const context = canvas.getContext('2d');
  if (context === null) return;
  for (let place = 0; place < count; place += 1) {
    const frame = Math.min(frameCount - 1, Math.floor(((place + 0.5) * frameCount) / count));
    // A copy may lack what is damaged; the strip is not worth a decode of its own.
    if (isDamaged(index, frame)) continue;
    while (!isFree(clip, frame)) {
      await pause(WAIT_MS);
      if (signal.aborted) return;
    }
    const picture = await feed.picture(clip, frame, 'proxy', signal).catch(() => null);
    if (signal.aborted) return picture?.close();
    if (picture !== null) {
      const [left, right] = [(place * canvas.width) / count, ((place + 1) * canvas.width) / count];
      context.imageSmoothingQuality = 'medium';
      context.drawImage(picture, Math.round(left), 0, Math.round(right) - Math.round(left), canvas.height);
      picture.close();
      canvas.dataset['strip'] = String(place + 1);
    }
    await pause(PAUSE_MS);
    if (signal.aborted) return;
  }
}

/** Whether the copy has the frame and the hand rests: nothing that is waited for on the bench may come later for this. */
function isFree(clip: string, frame: number): boolean {
  const copy = feed.copies.get()[clip];
  const has = copy !== undefined && (copy.doing === 'whole' || copy.written > frame);
  const { bench } = app.get();
  return has && (bench === null || bench.picture === 'exact') && !run.get().running;
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
          aria-label={`Loudest sound at frame ${String(loudest)}. Go there`}
          onClick={() => goTo(loudest)}
        >
          loudest sound
        </button>
      )}
    </div>
  );
}

/** Null while it is not known, and for a clip without sound. One that cannot be read: what is wrong the picture says. */
function useSound(clipId: string): SoundEnvelope | null {
  const came = useAnswer(clipId, soundOf);
  return came !== null && 'answer' in came ? came.answer : null;
}
