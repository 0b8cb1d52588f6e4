import { screen } from 'electron';

/** The longer side of the largest screen that is connected now, in its own pixels; without end where none is known. */
export function longestScreenSide(): number {
  const sides = screen.getAllDisplays().map(({ size, scaleFactor }) => Math.max(size.width, size.height) * scaleFactor);
  return sides.length === 0 ? Infinity : Math.max(...sides);
}
