import { useEffect, useRef } from 'react';
import type { RefObject } from 'react';
import type { BookClip } from '../../core/model/book.ts';
import type { PicturePoint } from '../../core/model/mark.ts';
import { benchView } from '../canvas/bench-view.ts';
import { LOUPE_SIZE, paintLoupe } from '../canvas/paint-loupe.ts';
import { toPicture, toScreen } from '../canvas/view-transform.ts';
import type { ScreenPoint } from '../canvas/view-transform.ts';
import { app } from '../state/app.ts';
import type { AppState } from '../state/app.ts';
import { keptMarks } from '../state/bench-actions.ts';
import { loupe } from '../state/loupe.ts';
import { useStore } from '../state/store.ts';
import styles from './loupe.module.css';

/** So near the pointer may come to the enlarged view, CSS pixels, before it goes to the other corner. */
const NEAR = 40;

/**
 * The picture around the pointer, or around the point that keys move, enlarged: while body points or a path are placed, and
 * while anything is drawn or dragged. It lies in a lower corner of the stage, away from where the hand is. Painted when the
 * pointer moves and when the picture or the marks change, past React.
 */
export function Loupe(props: { readonly clip: BookClip; readonly stageRef: RefObject<HTMLDivElement | null> }) {
  const { clip, stageRef } = props;
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const on = useStore(loupe, (state) => state.on);
  const { width, height } = clip;

  useEffect(() => {
    const [stage, canvas] = [stageRef.current, canvasRef.current];
    if (stage === null || canvas === null || !on) return;
    let pointer: ScreenPoint | null = null;
    /** Keys moved something since the pointer last did. */
    let byKeys = false;
    let asked = 0;

    const show = () => {
      asked = 0;
      const state = app.get();
      const { view, size } = benchView.get();
      const at = wanted(state) ? ((byKeys ? selectedPlace(state) : null) ?? placeUnder(pointer)) : null;
      canvas.hidden = at === null;
      if (at === null) return;
      const hand = toScreen(view, at);
      const isRight = hand.left > size.width - LOUPE_SIZE - NEAR && hand.top > size.height - LOUPE_SIZE - NEAR;
      canvas.dataset['corner'] = isRight ? 'left' : 'right';
      paintLoupe(canvas, at, { width, height });
    };
    const placeUnder = (screen: ScreenPoint | null): PicturePoint | null =>
      screen === null ? null : toPicture(benchView.get().view, screen);
    // The marks that are painted here come from an effect of React that runs after the store has told of them.
    const soon = () => {
      asked ||= requestAnimationFrame(show);
    };
    const onMove = (event: PointerEvent) => {
      const box = stage.getBoundingClientRect();
      pointer = { left: event.clientX - box.left, top: event.clientY - box.top };
      byKeys = false;
      soon();
    };
    const onLeave = () => {
      pointer = null;
      soon();
    };
    const onKey = () => {
      byKeys = true;
    };
    const capture = { capture: true };
    stage.addEventListener('pointermove', onMove, capture);
    stage.addEventListener('pointerdown', onMove, capture);
    stage.addEventListener('pointerleave', onLeave);
    window.addEventListener('keydown', onKey, capture);
    const stops = [app.subscribe(soon), benchView.subscribe(soon)];
    return () => {
      if (asked !== 0) cancelAnimationFrame(asked);
      canvas.hidden = true;
      for (const stop of stops) stop();
      stage.removeEventListener('pointermove', onMove, capture);
      stage.removeEventListener('pointerdown', onMove, capture);
      stage.removeEventListener('pointerleave', onLeave);
      window.removeEventListener('keydown', onKey, capture);
    };
  }, [on, stageRef, width, height]);

  return <canvas ref={canvasRef} className={styles.loupe} role="img" aria-label="Enlarged view" hidden />;
}

/** Whether something is being placed, drawn, dragged or moved by keys on the exact picture. */
function wanted({ bench }: AppState): boolean {
  if (bench === null || !bench.exact) return false;
  return bench.tool.tool !== 'move' || bench.tool.name !== 'idle' || bench.selected?.kind === 'point';
}

function selectedPlace(state: AppState): PicturePoint | null {
  const selected = state.bench?.selected ?? null;
  if (selected?.kind !== 'point') return null;
  const placed = keptMarks(state)?.points[selected.point];
  return placed === undefined ? null : { x: placed.x, y: placed.y };
}
