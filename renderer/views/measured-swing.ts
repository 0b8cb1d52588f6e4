import type { BookClip, BookSwing } from '../../core/model/book.ts';
import type { FrameMarks } from '../../core/model/mark.ts';
import type { Reading, ReadingKey } from '../../core/model/reading.ts';
import type { MarkedSwing } from '../../core/model/swing.ts';
import { formatShapeNumber, labelOf } from '../../core/measure/format.ts';
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

/** Name of a reading in a list that already says view and checkpoint. */
export function shortLabel(reading: Reading): string {
  return labelOf(reading);
}

/** The numbers of every shape on a frame as finished text, by the shape's id. */
export function shapeTexts(clip: BookClip, marks: FrameMarks): Readonly<Record<string, string>> {
  const measured = { ...clip, marks: [...clip.marks.filter((each) => each.frame.index !== marks.frame.index), marks] };
  const texts = marks.shapes.map((shape): [string, string] => {
    const numbers = readShape(shape, measured).flatMap((number) => formatShapeNumber(number)?.text ?? []);
    const role = shape.kind === 'line' || shape.kind === 'box' ? shape.role : null;
    const name = role === null ? '' : `${ROLE_NAMES[role]} `;
    return [shape.id, `${name}${numbers.join(', ')}`];
  });
  return Object.fromEntries(texts);
}

const ROLE_NAMES = { 'head-box': 'Head box', plumb: 'Plumb', yardstick: 'Yardstick' } as const;
