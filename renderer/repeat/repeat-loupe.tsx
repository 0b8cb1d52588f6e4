import { useEffect, useRef } from 'react';
import type { RefObject } from 'react';
import type { BookClip } from '../../core/model/book.ts';
import { benchView } from '../canvas/bench-view.ts';
import { loupeCorner } from '../canvas/loupe-corner.ts';
import { paintLoupe } from '../canvas/paint-loupe.ts';
import { toPicture, toScreen } from '../canvas/view-transform.ts';
import type { ScreenPoint } from '../canvas/view-transform.ts';
import { loupe } from '../bench/state/loupe.ts';
import { useStore } from '../shell/state/store.ts';
import { besideThePointer } from '../tools/place-in-hand.ts';
import { placedHere } from '../tools/repeat-tool.ts';
import type { RepeatRound } from '../tools/repeat-tool.ts';
import styles from '../bench/surface/loupe.module.css';

/** The enlarged view of the bench, for the repeat check: points are placed by the same means as ever. */
export function RepeatLoupe(props: {
  readonly clip: BookClip;
  readonly run: RepeatRound;
  readonly exact: boolean;
  readonly stageRef: RefObject<HTMLDivElement | null>;
}) {
  const { clip, run, exact, stageRef } = props;
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const pointerRef = useRef<ScreenPoint | null>(null);
  const showRef = useRef<() => void>(() => undefined);
  const on = useStore(loupe, (state) => state.on);
  const { width, height } = clip;

  useEffect(() => {
    const show = () => {
      const canvas = canvasRef.current;
      const { view, size } = benchView.get();
      const [pointer, selected] = [pointerRef.current, run.selected];
      const points = placedHere(run);
      const byKeys = selected?.kind === 'point' && pointer === null ? points[selected.point] : undefined;
      if (canvas === null) return;
      canvas.hidden = !on || !exact || (pointer === null && byKeys === undefined);
      if (canvas.hidden) return;
      const under = toPicture(view, pointer ?? { left: 0, top: 0 });
      const by = besideThePointer(run.tool, { frame: { index: 0, pts: 0 }, points, shapes: [] });
      const at = byKeys ?? { x: under.x + by.x, y: under.y + by.y };
      canvas.dataset['corner'] = loupeCorner(size, [toScreen(view, at)]);
      paintLoupe(canvas, at, { width, height });
    };
    showRef.current = show;
    const asked = requestAnimationFrame(show);
    const stop = benchView.subscribe(show);
    return () => {
      cancelAnimationFrame(asked);
      stop();
    };
  }, [run, exact, on, width, height]);

  useEffect(() => {
    const stage = stageRef.current;
    if (stage === null) return;
    const onMove = (event: PointerEvent) => {
      const box = stage.getBoundingClientRect();
      pointerRef.current = { left: event.clientX - box.left, top: event.clientY - box.top };
      requestAnimationFrame(() => showRef.current());
    };
    // Keys move what is selected, and not what lies under the pointer.
    const onKey = () => {
      pointerRef.current = null;
    };
    const onLeave = () => {
      pointerRef.current = null;
      showRef.current();
    };
    const capture = { capture: true };
    stage.addEventListener('pointermove', onMove, capture);
    stage.addEventListener('pointerdown', onMove, capture);
    stage.addEventListener('pointerleave', onLeave);
    window.addEventListener('keydown', onKey, capture);
    return () => {
      stage.removeEventListener('pointermove', onMove, capture);
      stage.removeEventListener('pointerdown', onMove, capture);
      stage.removeEventListener('pointerleave', onLeave);
      window.removeEventListener('keydown', onKey, capture);
    };
  }, [stageRef]);

  return <canvas ref={canvasRef} className={styles.loupe} role="img" aria-label="Enlarged view" hidden />;
}
