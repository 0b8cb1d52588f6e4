import { say } from '../../../core/model/say.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { Shape } from '../../../core/model/mark.ts';
import { formatShapeNumbers } from '../../../core/measure/words/format.ts';
import { readShape } from '../../../core/shapes/read-shape.ts';

const NUMBER_WORDS: Readonly<Record<string, string>> = {
  angle: say`angle`,
  incline: say`incline`,
  length: say`length`,
  radius: say`radius`,
  diameter: say`diameter`,
  width: say`width`,
  height: say`height`,
};

/** All numbers of a drawn shape as one finished text; what its size cannot tell says so. */
export function shapeNumbers(shape: Shape, clip: BookClip): string {
  const numbers = readShape(shape, clip);
  const written = formatShapeNumbers(numbers);
  return numbers
    .flatMap(({ id, state }, place) =>
      state === 'missing' ? [] : [`${NUMBER_WORDS[id] ?? id} ${written[place]?.text ?? say`can't tell`}`],
    )
    .join(', ');
}
