import { useEffect, useRef } from 'react';
import type { RefObject } from 'react';
import type { FrameMarks } from '../../core/model/mark.ts';
import type { Box } from '../../core/painting/box.ts';
import { lengthInCell, placeInCell } from '../canvas/cell-place.ts';
import { cancelInCell, canTake, letGoInCell, moveInCell, takeInCell } from './state/cell-gesture.ts';
import type { CellGesture } from './state/cell-gesture.ts';

/** How near the pointer must come to a mark to take it, CSS pixels. Less than on the bench: cells are small. */
const REACH = 9;

/**
 * Lets marks be dragged in a small picture, by mouse, pen or finger; Esc cancels. A press that takes nothing is left to
 * whatever lies there (the button that opens the bench), and the click after a drag does not reach it.
 */
export function useCellDrag(
  ref: RefObject<HTMLElement | null>,
  cell: { readonly clipId: string; readonly marks: FrameMarks; readonly part: Box },
): void {
  const latest = useRef(cell);
  useEffect(() => {
    latest.current = cell;
  }, [cell]);

  useEffect(() => {
    const element = ref.current;
    if (element === null) return;
    let pointer: number | null = null;
    let swallowed = false;
    const where = (event: PointerEvent) => {
      const rect = element.getBoundingClientRect();
      const { part } = latest.current;
      return {
        at: placeInCell(rect, part, { x: event.clientX, y: event.clientY }),
        reach: lengthInCell(rect, part, REACH),
      };
    };
    const onDown = (event: PointerEvent) => {
      swallowed = false;
      if (event.button !== 0 || pointer !== null) return;
      const { at, reach } = where(event);
      const { clipId, marks } = latest.current;
      if (!takeInCell(clipId, marks, at, reach)) return;
      event.preventDefault();
      pointer = event.pointerId;
      swallowed = true;
      element.setPointerCapture(pointer);
    };
    const onMove = (event: PointerEvent) => {
      const { at, reach } = where(event);
      if (event.pointerId === pointer) moveInCell(at, reach);
      else if (pointer === null) element.style.cursor = canTake(latest.current.marks, at, reach) ? 'grab' : '';
    };
    const onUp = (event: PointerEvent) => {
      if (event.pointerId !== pointer) return;
      pointer = null;
      const { at, reach } = where(event);
      letGoInCell(at, reach);
    };
    const cancel = () => {
      if (pointer === null) return;
      pointer = null;
      cancelInCell();
    };
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== 'Escape' || pointer === null) return;
      event.preventDefault();
      event.stopPropagation();
      cancel();
    };
    const onClick = (event: MouseEvent) => {
      if (!swallowed) return;
      swallowed = false;
      event.preventDefault();
      event.stopPropagation();
    };
    // A finger that has taken a mark drags it; beside the marks it scrolls the page.
    const onTouch = (event: TouchEvent) => {
      if (pointer !== null) event.preventDefault();
    };
    const listening = new AbortController();
    const { signal } = listening;
    element.addEventListener('touchstart', onTouch, { passive: false, signal });
    element.addEventListener('pointerdown', onDown, { signal });
    element.addEventListener('pointermove', onMove, { signal });
    element.addEventListener('pointerup', onUp, { signal });
    element.addEventListener('pointercancel', cancel, { signal });
    element.addEventListener('lostpointercapture', cancel, { signal });
    element.addEventListener('click', onClick, { capture: true, signal });
    window.addEventListener('keydown', onKey, { capture: true, signal });
    window.addEventListener('blur', cancel, { signal });
    return () => {
      cancel();
      listening.abort();
    };
  }, [ref]);
}

/** What a cell shows while one of its marks is dragged; null while none is. */
export function draftOf(gesture: CellGesture | null, clipId: string, index: number): FrameMarks | null {
  const draft = gesture?.clipId === clipId ? gesture.draft : null;
  return draft?.frame.index === index ? draft : null;
}
