import type { Size } from './view-transform.ts';

/**
 * Keeps a canvas as large as its place in the window, in whole device pixels. Calls back at once and each time it was given
 * its size anew, in CSS pixels: it is empty then, also when the size stayed. Returns how to stop.
 */
export function fillCanvas(canvas: HTMLCanvasElement, filled: (size: Size) => void): () => void {
  const fill = () => {
    const width = Math.max(1, canvas.clientWidth);
    const height = Math.max(1, canvas.clientHeight);
    canvas.width = Math.round(width * window.devicePixelRatio);
    canvas.height = Math.round(height * window.devicePixelRatio);
    filled({ width, height });
  };
  fill();
  const observer = new ResizeObserver(fill);
  observer.observe(canvas);
  const stop = onOtherScreen(fill);
  return () => {
    stop();
    observer.disconnect();
  };
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
