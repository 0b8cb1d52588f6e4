import { createCanvas } from '@napi-rs/canvas';
import { expect, test } from 'vitest';
import type { PaintContext } from '../../../core/painting/context.ts';

/** Compiles only while the window's context has everything the painter uses. */
export function windowContext(context: CanvasRenderingContext2D): PaintContext {
  return context;
}

test('the context that writes stills has everything the painter uses', () => {
  const context: PaintContext = createCanvas(2, 2).getContext('2d');
  expect(context.measureText('').width).toBe(0);
});
