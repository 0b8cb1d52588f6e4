import { useEffect, useRef } from 'react';
import type { RefObject } from 'react';
import type { BookClip } from '../../../core/model/book.ts';
import type { PicturePoint } from '../../../core/model/mark.ts';
import { benchView } from '../../canvas/bench-view.ts';
import { loupeCorner } from '../../canvas/loupe-corner.ts';
import { paintLoupe } from '../../canvas/paint-loupe.ts';
import { toPicture, toScreen } from '../../canvas/view-transform.ts';
import type { ScreenPoint, ViewTransform } from '../../canvas/view-transform.ts';
import { app } from '../../shell/state/app-state.ts';
import type { AppState } from '../../shell/state/app-state.ts';
import { benchClip, keptMarks, pointAskedFor } from '../state/bench-actions.ts';
import { loupe } from '../state/loupe.ts';
import { pictureLight } from '../state/picture-light.ts';
import { startsFor } from '../state/starts.ts';
import { useStore } from '../../shell/state/store.ts';
import { besideThePointer } from '../../tools/place-in-hand.ts';
import styles from './loupe.module.css';

/**
 * The picture around the pointer enlarged, or around what keys do something with: the selected point, or the start that
 * Enter would accept. It comes up while body points or a path are placed, and while anything is drawn or dragged, and lies in
 * a lower corner of the stage, away from the hand and from where the next point is looked for. Painted when the pointer moves
 * and when the picture or the marks change, past React.
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
      const isWanted = wanted(state);
      const start = isWanted ? startAskedFor(state) : null;
      const place = (byKeys ? (selectedPlace(state) ?? start) : null) ?? placeInHand(state, view, pointer);
      const at = isWanted ? place : null;
      canvas.hidden = at === null;
      if (at === null) return;
      const next = start === null ? [] : [toScreen(view, start)];
      canvas.dataset['corner'] = loupeCorner(size, [
        ...(pointer === null ? [] : [pointer]),
        toScreen(view, at),
        ...next,
      ]);
      paintLoupe(canvas, at, { width, height });
    };
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
    const stops = [app.subscribe(soon), benchView.subscribe(soon), pictureLight.subscribe(soon)];
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
  if (bench?.picture !== 'exact') return false;
  return bench.tool.tool !== 'move' || bench.tool.name !== 'idle' || bench.selected?.kind === 'point';
}

/** Where what the hand holds is exactly, or what is under the pointer. */
function placeInHand(state: AppState, view: ViewTransform, pointer: ScreenPoint | null): PicturePoint | null {
  if (pointer === null) return null;
  const under = toPicture(view, pointer);
  const kept = keptMarks(state);
  if (state.bench === null || kept === null) return under;
  const by = besideThePointer(state.bench.tool, kept);
  return { x: under.x + by.x, y: under.y + by.y };
}

/** Where Enter would put the body point that is asked for; null outside of the guided run, or where it has no start. */
function startAskedFor(state: AppState): PicturePoint | null {
  const clip = benchClip(state);
  if (clip === null || state.bench?.tool.tool !== 'points') return null;
  const asked = pointAskedFor(state);
  return asked === null ? null : (startsFor(clip, state.bench.index)[asked] ?? null);
}

function selectedPlace(state: AppState): PicturePoint | null {
  const selected = state.bench?.selected ?? null;
  if (selected?.kind !== 'point') return null;
  const placed = keptMarks(state)?.points[selected.point];
  return placed === undefined ? null : { x: placed.x, y: placed.y };
}
