import { useEffect } from 'react';
import type { RefObject } from 'react';
import { benchView, resize } from '../canvas/bench-view.ts';

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
    // Also when the window comes to a screen of finer pixels.
    observer.observe(wrap, { box: 'device-pixel-content-box' });
    return () => observer.disconnect();
  }, [wrapRef, pictureRef]);
}
