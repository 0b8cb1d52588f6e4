import type { BookClip, BookSwing } from '../../core/model/book.ts';
import type { Shape } from '../../core/model/mark.ts';
import type { ReadingKey } from '../../core/model/reading.ts';
import type { MarkedSwing } from '../../core/model/swing.ts';
import { formatShapeNumber } from '../../core/measure/format.ts';
import { readShape } from '../../core/measure/read-shape.ts';

/** What of a swing in the book the readings are made from. */
export function markedSwing(swing: BookSwing): MarkedSwing {
  const { student, lesson, clips } = swing;
  return {
    studentFirstName: student.firstName,
    date: lesson.date,
    club: lesson.club,
    handedness: lesson.handedness,
    clips,
  };
}

export function sameReading(one: ReadingKey, other: ReadingKey): boolean {
  return (
    one.id === other.id && one.aspect === other.aspect && one.view === other.view && one.checkpoint === other.checkpoint
  );
}

/** All numbers of a drawn shape as one finished text. */
export function shapeNumbers(shape: Shape, clip: BookClip): string {
  return readShape(shape, clip)
    .flatMap((number) => {
      const written = formatShapeNumber(number);
      return written === null ? [] : [`${number.id} ${written.text}`];
    })
    .join(', ');
}
