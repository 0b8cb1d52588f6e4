import { useEffect } from 'react';
import type { RefObject } from 'react';
import { benchView, resize } from '../../canvas/bench-view.ts';

/** Keeps the picture's canvas and the view as large as their place in the window, in whole device pixels. */
export function useSizeOfBench(
  wrapRef: RefObject<HTMLDivElement | null>,
  pictureRef: RefObject<HTMLCanvasElement | null>,
): void {
  useEffect(() => {
    const wrap = wrapRef.current;
    if (wrap === null) return;
    const measure = () => {
      const width = Math.max(1, wrap.clientWidth);
      const height = Math.max(1, wrap.clientHeight);
      const picture = pictureRef.current;
      if (picture !== null) {
        picture.width = Math.round(width * window.devicePixelRatio);
        picture.height = Math.round(height * window.devicePixelRatio);
      }
      resize({ width, height });
      // A canvas that was given its size anew is empty, also when the size stayed: paint it again.
      benchView.update((state) => ({ ...state }));
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(wrap);
    const stop = onOtherScreen(measure);
    return () => {
      stop();
      observer.disconnect();
    };
  }, [wrapRef, pictureRef]);
}

/** Calls back each time the window comes to a screen of finer or coarser pixels; returns how to stop. */
function onOtherScreen(callback: () => void): () => void {
  const stop = new AbortController();
  // A query tells only of leaving the ratio it was made for.
  const wait = () => {
    const query = matchMedia(`(resolution: ${String(window.devicePixelRatio)}dppx)`);
    const options = { once: true, signal: stop.signal };
    query.addEventListener(
      'change',
      () => {
        callback();
        wait();
      },
      options,
    );
  };
  wait();
  return () => stop.abort();
}
