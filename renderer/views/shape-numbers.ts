import type { BookClip } from '../../core/model/book.ts';
import type { Shape } from '../../core/model/mark.ts';
import { formatShapeNumber } from '../../core/measure/format.ts';
import { readShape } from '../../core/measure/read-shape.ts';

/** All numbers of a drawn shape as one finished text. */
export function shapeNumbers(shape: Shape, clip: BookClip): string {
  return readShape(shape, clip)
    .flatMap((number) => {
      const written = formatShapeNumber(number);
      return written === null ? [] : [`${number.id} ${written.text}`];
    })
    .join(', ');
}
