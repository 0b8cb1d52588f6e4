import { useEffect, useMemo, useRef } from 'react';
import type { PointerEvent as ReactPointer } from 'react';
import { say } from '../../core/model/say.ts';
import type { Talk } from '../../core/model/talk.ts';
import { timeMarks, type TimeMark } from '../../core/talk/on-time.ts';
import { meterOf } from '../../core/talk/sound-level.ts';
import { talkLength } from '../../core/talk/talk-time.ts';
import { useStore } from '../shell/state/store.ts';
import { useWidth } from '../shell/use-width.ts';
import { clockOf } from './recording-controls.tsx';
import { choosePart, cursor, goToTime } from './state/cursor.ts';
import { stopTalk } from './state/talk-player.ts';
import styles from './put-right.module.css';

const HEIGHT = 64;
/** A pointer that moved less has pressed, CSS pixels. */
const PRESS = 4;

const MARK_WORDS: Readonly<Record<TimeMark['kind'], string>> = {
  frame: say`Another frame`,
  drawing: say`A drawing changes`,
  caption: say`A caption begins or ends`,
  chapter: say`A finding begins`,
  cut: say`A part was cut here, or said anew`,
};

/** How loud the talk-through is over its time, with marks where something changes. A press goes there; a drag chooses a part. */
export function Waveform({ talk, loudness }: { readonly talk: Talk; readonly loudness: Float32Array }) {
  const wrapRef = useRef<HTMLDivElement>(null);
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const width = useWidth(wrapRef);
  const time = useStore(cursor, (state) => state.time);
  const part = useStore(cursor, (state) => state.part);
  const length = talkLength(talk);
  const marks = useMemo(() => timeMarks(talk), [talk]);
  const began = useRef<number | null>(null);
  useEffect(() => {
    if (canvasRef.current !== null) paintLoudness(canvasRef.current, width, loudness);
  }, [width, loudness]);

  const percent = (at: number): string => `${String((100 * at) / Math.max(1, length))}%`;
  const timeOf = ({ clientX, currentTarget }: ReactPointer): number => {
    const box = currentTarget.getBoundingClientRect();
    return (Math.min(1, Math.max(0, (clientX - box.left) / box.width)) * length) | 0;
  };
  return (
    <div className={styles.strip}>
      <div className={styles.marks} aria-hidden="true">
        {marks.map(({ at, kind }) => (
          <span key={`${kind} ${String(at)}`} data-kind={kind} title={MARK_WORDS[kind]} style={{ left: percent(at) }} />
        ))}
      </div>
      <div
        ref={wrapRef}
        className={styles.wave}
        onPointerDown={(event) => {
          stopTalk();
          event.currentTarget.setPointerCapture(event.pointerId);
          began.current = timeOf(event);
          goToTime(began.current, length);
        }}
        onPointerMove={(event) => {
          if (began.current === null) return;
          const far = Math.abs(timeOf(event) - began.current) * (width / Math.max(1, length));
          if (far >= PRESS) choosePart(began.current, timeOf(event));
        }}
        onPointerUp={() => (began.current = null)}
        onPointerCancel={() => (began.current = null)}
      >
        <canvas ref={canvasRef} aria-hidden="true" />
        {part === null ? null : (
          <span
            className={styles.part}
            style={{ left: percent(part.from), width: percent(part.to - part.from) }}
            aria-hidden="true"
          />
        )}
        <span className={styles.cursor} style={{ left: percent(time) }} aria-hidden="true" />
        <input
          type="range"
          min={0}
          max={length}
          step={100}
          value={time}
          aria-label={say`Time`}
          aria-valuetext={say`${clockOf(time / 1000)} of ${clockOf(length / 1000)}`}
          onChange={({ target }) => {
            stopTalk();
            goToTime(Number(target.value), length);
          }}
        />
      </div>
    </div>
  );
}

function paintLoudness(canvas: HTMLCanvasElement, width: number, loudness: Float32Array): void {
  const context = canvas.getContext('2d');
  if (context === null || width <= 0) return;
  const ratio = window.devicePixelRatio;
  canvas.width = Math.round(width * ratio);
  canvas.height = Math.round(HEIGHT * ratio);
  context.fillStyle = getComputedStyle(canvas).color;
  const middle = canvas.height / 2;
  for (let column = 0; column < canvas.width; column += 1) {
    const [from, to] = [column, column + 1].map((at) => Math.floor((at * loudness.length) / canvas.width));
    let most = 0;
    for (let step = from ?? 0; step < Math.max((from ?? 0) + 1, to ?? 0); step += 1)
      most = Math.max(most, loudness[step] ?? 0);
    const half = Math.max(ratio / 2, meterOf(most) * middle);
    context.fillRect(column, middle - half, 1, 2 * half);
  }
}
