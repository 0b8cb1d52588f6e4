import { formatShapeNumbers } from '../measure/words/format.ts';
import type { ShapeNumberId } from '../measure/readings/shape-number.ts';
import type { FrameMarks, Shape } from '../model/mark.ts';
import { readShape, type ShapeClip } from '../shapes/read-shape.ts';
import { kindOf } from '../shapes/shapes.ts';
import type { LabelTexts } from './draw-list.ts';

/** The texts beside the shapes of one frame: the number each shape is drawn for, with unit and ±. */
export function labelTextsOf(marks: FrameMarks, clip: ShapeClip): LabelTexts {
  return { shapes: Object.fromEntries(marks.shapes.map((shape) => [shape.id, shapeText(shape, clip)])) };
}

/** What stands beside one shape; empty when it has no extent to measure. */
export function shapeText(shape: Shape, clip: ShapeClip): string {
  const numbers = readShape(shape, clip);
  const written = formatShapeNumbers(numbers);
  const text = (id: ShapeNumberId): string => written[numbers.findIndex((each) => each.id === id)]?.text ?? '';
  return kindOf(shape).text(shape, text);
}
