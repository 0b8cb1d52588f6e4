import type { BookClip } from '../../../core/model/book.ts';
import type { Shape } from '../../../core/model/mark.ts';
import { formatShapeNumbers } from '../../../core/measure/words/format.ts';
import { readShape } from '../../../core/shapes/read-shape.ts';

/** All numbers of a drawn shape as one finished text; what its size cannot tell says so. */
export function shapeNumbers(shape: Shape, clip: BookClip): string {
  const numbers = readShape(shape, clip);
  const written = formatShapeNumbers(numbers);
  return numbers
    .flatMap(({ id, state }, place) => (state === 'missing' ? [] : [`${id} ${written[place]?.text ?? "can't tell"}`]))
    .join(', ');
}
