/** From this zoom on (CSS pixels a picture pixel) a thin grid tells the picture's pixels apart. */
export const GRID_FROM = 16;

/**
 * Where the edges between picture pixels lie along one side of a canvas, in whole device pixels: those of the `length`
 * picture pixels whose edge is on the canvas, both ends of the picture among them. `zoom` in device pixels a picture pixel,
 * > 0; `pan` the place of picture coordinate 0, in device pixels; `room` the canvas's length in device pixels.
 */
export function gridEdges(zoom: number, pan: number, length: number, room: number): readonly number[] {
  const first = Math.max(0, Math.ceil(-pan / zoom));
  const last = Math.min(length, Math.floor((room - 1 - pan) / zoom));
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, step) => Math.round(pan + (first + step) * zoom));
}
