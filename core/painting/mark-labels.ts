import { formatShapeNumbers } from '../measure/words/format.ts';
import { readShape, type ShapeClip, type ShapeNumberId } from '../measure/readings/read-shape.ts';
import type { FrameMarks, Shape } from '../model/mark.ts';
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
  switch (shape.kind) {
    case 'line':
      if (shape.role === 'plumb' || shape.role === 'level') return shape.role;
      return text(shape.role === 'yardstick' ? 'length' : 'incline');
    case 'angle':
      return text('angle');
    case 'circle':
      if (shape.role === 'ball') return 'ball';
      return text('diameter') === '' ? '' : `diameter ${text('diameter')}`;
    case 'free':
      return '';
    case 'path':
      return shape.subject;
    case 'ground':
      return 'ground marks';
    case 'edge':
      return 'straight edge';
    case 'box': {
      if (shape.role === 'head-box') return 'head box';
      if (shape.role === 'head') return 'head';
      const sides = [text('width'), text('height')];
      return sides.includes('') ? '' : sides.join(' by ');
    }
  }
}
