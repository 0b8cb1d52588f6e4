import { useEffect, useRef } from 'react';
import type { RefObject } from 'react';
import { say } from '../../../core/model/say.ts';
import type { PicturePoint } from '../../../core/model/mark.ts';
import { benchView } from '../../canvas/bench-view.ts';
import { loupeCorner } from '../../canvas/loupe-corner.ts';
import { paintLoupe } from '../../canvas/paint-loupe.ts';
import type { LoupeContent } from '../../canvas/paint-loupe.ts';
import { toPicture, toScreen } from '../../canvas/view-transform.ts';
import type { ScreenPoint, Size } from '../../canvas/view-transform.ts';
import { app } from '../../shell/state/app-state.ts';
import { settings } from '../../shell/state/settings.ts';
import { enlargeByWheel, loupe } from '../state/loupe.ts';
import { pictureLight } from '../state/picture-light.ts';
import { useStore } from '../../shell/state/store.ts';
import { besideThePointer } from '../../tools/place-in-hand.ts';
import type { Hand, Held } from './hand.ts';
import styles from './loupe.module.css';

/**
 * The picture around the pointer enlarged, or around what keys do something with: the selected point, or the start that
 * Enter would accept. It comes up while the hand holds something, and lies in a lower corner of the stage, away from the
 * hand and from where the next point is looked for. Painted when the pointer moves and when the picture or the marks
 * change, past React.
 */
export function Loupe(props: {
  readonly size: Size;
  readonly hand: Hand;
  readonly content: () => LoupeContent;
  readonly stageRef: RefObject<HTMLDivElement | null>;
}) {
  const { hand, content, stageRef } = props;
  const { width, height } = props.size;
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const on = useStore(loupe, (state) => state.on);

  useEffect(() => {
    const [stage, canvas] = [stageRef.current, canvasRef.current];
    if (stage === null || canvas === null || !on) return;
    let pointer: ScreenPoint | null = null;
    /** Keys moved something since the pointer last did. */
    let byKeys = false;
    let asked = 0;

    const show = () => {
      asked = 0;
      const { view, size } = benchView.get();
      const held = hand.held(app.get());
      const under = pointer === null ? null : toPicture(view, pointer);
      const at = held === null ? null : ((byKeys ? placeOfKeys(held) : null) ?? placeInHand(held, under));
      canvas.hidden = at === null;
      if (held === null || at === null) return;
      const away = [at, ...(held.start === null ? [] : [held.start])].map((place) => toScreen(view, place));
      canvas.dataset['corner'] = loupeCorner(size, pointer === null ? away : [pointer, ...away]);
      paintLoupe(canvas, at, { width, height }, content(), settings.get().enlargedLines);
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
    // Before the picture itself is zoomed by it.
    const onWheel = (event: WheelEvent) => {
      if (!event.altKey) return;
      event.preventDefault();
      event.stopPropagation();
      enlargeByWheel(event.deltaY);
    };
    const onLeave = () => {
      pointer = null;
      soon();
    };
    const onKey = () => {
      byKeys = true;
    };
    const listening = new AbortController();
    const { signal } = listening;
    stage.addEventListener('pointermove', onMove, { capture: true, signal });
    stage.addEventListener('pointerdown', onMove, { capture: true, signal });
    stage.addEventListener('pointerleave', onLeave, { signal });
    stage.addEventListener('wheel', onWheel, { capture: true, passive: false, signal });
    window.addEventListener('keydown', onKey, { capture: true, signal });
    const stops = [
      app.subscribe(soon),
      benchView.subscribe(soon),
      pictureLight.subscribe(soon),
      settings.subscribe(soon),
    ];
    return () => {
      if (asked !== 0) cancelAnimationFrame(asked);
      canvas.hidden = true;
      for (const stop of stops) stop();
      listening.abort();
    };
  }, [on, hand, content, stageRef, width, height]);

  return <canvas ref={canvasRef} className={styles.loupe} role="img" aria-label={say`Enlarged view`} hidden />;
}

function placeOfKeys({ selected, kept, start }: Held): PicturePoint | null {
  const placed = selected?.kind === 'point' ? kept.points[selected.point] : undefined;
  return placed === undefined ? start : { x: placed.x, y: placed.y };
}

/** Where what the hand holds is exactly, or what is under the pointer. */
function placeInHand({ tool, kept }: Held, under: PicturePoint | null): PicturePoint | null {
  if (under === null) return null;
  const by = besideThePointer(tool, kept);
  return { x: under.x + by.x, y: under.y + by.y };
}
