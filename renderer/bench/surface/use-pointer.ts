import { useEffect, useState } from 'react';
import type { RefObject } from 'react';
import { pan, pinch, zoomByWheel } from '../../canvas/bench-view.ts';
import type { ScreenPoint } from '../../canvas/view-transform.ts';
import { TYPING } from './use-keys.ts';

const LINE_HEIGHT = 40;
/** What Space itself presses, for whoever went there by keys. */
const PRESSED_BY_KEY = ':is(button, summary, a):focus-visible, input, label';

export interface PointerOptions {
  /** Nothing is marked here: the main button pans by itself. */
  readonly alwaysPans?: boolean;
  /** Space was tapped: pressed and let go again soon, and nothing was moved meanwhile. The same function all the time. */
  readonly tap?: (() => void) | undefined;
}

/** Space that is held longer than this meant to pan, ms. */
const TAP_MS = 350;

/**
 * Wheel, panning (middle button, or the main one while Space is held, or always where nothing is marked) and two fingers, taken before the tools see them: a
 * second finger ends what the first one began. Answers whether the picture is being panned. A pointer that the system takes away cancels the gesture.
 */
export function usePointer(
  wrapRef: RefObject<HTMLDivElement | null>,
  cancel: () => void,
  { alwaysPans = false, tap }: PointerOptions = {},
): boolean {
  const [panning, setPanning] = useState(false);
  useEffect(() => {
    const wrap = wrapRef.current;
    if (wrap === null) return;
    let hovered = false;
    let space = false;
    /** When Space went down, and whether anything was moved since. */
    let [since, moved] = [0, false];
    let held: { id: number; left: number; top: number } | null = null;

    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      const box = wrap.getBoundingClientRect();
      const pixels = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? event.deltaY * LINE_HEIGHT : event.deltaY;
      zoomByWheel(pixels, { left: event.clientX - box.left, top: event.clientY - box.top });
    };
    /** Fingers on the picture, in the order they came. After a second one nothing is drawn until all are lifted. */
    const fingers = new Map<number, ScreenPoint>();
    let pinching = false;
    const placeOf = (event: PointerEvent): ScreenPoint => {
      const box = wrap.getBoundingClientRect();
      return { left: event.clientX - box.left, top: event.clientY - box.top };
    };
    const pairOf = (): readonly [ScreenPoint, ScreenPoint] | null => {
      const [one, other] = [...fingers.values()];
      return one === undefined || other === undefined ? null : [one, other];
    };
    const onFinger = (event: PointerEvent): boolean => {
      if (event.pointerType !== 'touch') return false;
      const from = pairOf();
      if (event.type === 'pointerdown') {
        fingers.set(event.pointerId, placeOf(event));
        if (fingers.size === 2) {
          pinching = true;
          cancel();
        }
      } else if (event.type === 'pointermove' && fingers.has(event.pointerId)) {
        fingers.set(event.pointerId, placeOf(event));
        const to = pairOf();
        if (pinching && from !== null && to !== null) pinch(from, to);
      } else if (event.type === 'pointerup' || event.type === 'pointercancel') fingers.delete(event.pointerId);
      const taken = pinching;
      if (fingers.size === 0) pinching = false;
      if (taken) event.stopPropagation();
      return taken;
    };
    const onDown = (event: PointerEvent) => {
      wrap.focus({ preventScroll: true });
      if (onFinger(event)) return;
      if (event.button !== 1 && !((space || alwaysPans) && event.button === 0)) return;
      event.preventDefault();
      event.stopPropagation();
      held = { id: event.pointerId, left: event.clientX, top: event.clientY };
      wrap.setPointerCapture(event.pointerId);
      setPanning(true);
    };
    const onMove = (event: PointerEvent) => {
      if (onFinger(event)) return;
      if (held?.id !== event.pointerId) return;
      event.stopPropagation();
      moved = true;
      pan(event.clientX - held.left, event.clientY - held.top);
      held = { id: event.pointerId, left: event.clientX, top: event.clientY };
    };
    const onUp = (event: PointerEvent) => {
      if (onFinger(event)) return;
      if (held?.id !== event.pointerId) return;
      event.stopPropagation();
      held = null;
      setPanning(false);
    };
    const onLost = (event: Event) => {
      if (event instanceof PointerEvent && onFinger(event)) return;
      fingers.clear();
      held = null;
      space = false;
      setPanning(false);
      cancel();
    };
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== ' ' || (event.target instanceof Element && event.target.closest(TYPING) !== null)) return;
      // Whoever went to a button by keys presses it, wherever the pointer was left.
      const presses = event.target instanceof Element && event.target.matches(PRESSED_BY_KEY);
      const wanted = event.type === 'keydown' && !presses && (hovered || document.activeElement === wrap);
      if (wanted || space) {
        event.preventDefault();
        event.stopPropagation();
      }
      if (event.type === 'keyup' && space && !moved && event.timeStamp - since < TAP_MS) tap?.();
      if (wanted && !space) [since, moved] = [event.timeStamp, false];
      space = wanted;
    };
    const enter = () => (hovered = true);
    const leave = () => (hovered = false);

    const listening = new AbortController();
    const { signal } = listening;
    const first = { capture: true, signal };
    wrap.addEventListener('wheel', onWheel, { passive: false, signal });
    wrap.addEventListener('pointerdown', onDown, first);
    wrap.addEventListener('pointermove', onMove, first);
    wrap.addEventListener('pointerup', onUp, first);
    wrap.addEventListener('pointercancel', onLost, { signal });
    wrap.addEventListener('pointerenter', enter, { signal });
    wrap.addEventListener('pointerleave', leave, { signal });
    window.addEventListener('keydown', onKey, first);
    window.addEventListener('keyup', onKey, first);
    window.addEventListener('blur', onLost, { signal });
    return () => listening.abort();
  }, [wrapRef, cancel, alwaysPans, tap]);
  return panning;
}
