/**
 * The part of a 2-D canvas context that the painter uses. The window's context, the one that writes stills and the one
 * that records calls in tests all satisfy it by shape, so the same code paints on all three.
 *
 * Styles are read as `unknown` because contexts may hold gradients there; the painter only ever sets colours.
 */
export interface PaintContext {
  save(): void;
  restore(): void;
  translate(x: number, y: number): void;
  scale(x: number, y: number): void;

  beginPath(): void;
  moveTo(x: number, y: number): void;
  lineTo(x: number, y: number): void;
  closePath(): void;
  rect(x: number, y: number, width: number, height: number): void;
  /** Angles in radians from +x, growing clockwise on screen (y down). */
  arc(x: number, y: number, radius: number, start: number, end: number): void;
  stroke(): void;
  fill(): void;
  clip(): void;
  fillRect(x: number, y: number, width: number, height: number): void;

  fillText(text: string, x: number, y: number): void;
  /** Width in units of the current transform. */
  measureText(text: string): { readonly width: number };

  setLineDash(segments: number[]): void;
  lineWidth: number;
  get lineCap(): string;
  set lineCap(value: 'butt' | 'round');
  get lineJoin(): string;
  set lineJoin(value: 'miter' | 'round');
  get strokeStyle(): unknown;
  set strokeStyle(value: string);
  get fillStyle(): unknown;
  set fillStyle(value: string);
  font: string;
  get textAlign(): string;
  set textAlign(value: 'left' | 'center' | 'right');
  get textBaseline(): string;
  set textBaseline(value: 'alphabetic' | 'middle');
}
