import { expect, test } from 'vitest';
import type { StudentOverview } from '../../../core/model/book.ts';
import { listedStudents } from '../../../renderer/book/listed-students.ts';

/** Invented students, each with the days of their lessons. */
function seen(firstName: string, lastName: string, ...dates: readonly string[]): StudentOverview {
  const student = { id: `${firstName} ${lastName}`, firstName, lastName, handedness: 'right' as const };
  const lessons = dates.map((date) => ({
    lesson: { id: date, studentId: student.id, date, club: '', handedness: 'right' as const, note: '' },
    swings: [],
  }));
  return { student, lessons };
}

const STUDENTS = [
  seen('Robin', 'Ashdown', '2026-04-14', '2026-05-12'),
  seen('\u017dofie', 'Mar\u0161\u00e1lkov\u00e1', '2026-11-02'),
  seen('Ada', 'Reed'),
  seen('Ruben', 'Ashby', '2026-09-30', '2025-01-01'),
];
const names = (typed: string): readonly string[] =>
  listedStudents(STUDENTS, typed).map(({ student }) => student.firstName);

test('those seen last come first, and whoever has no lesson yet before them', () => {
  expect(names('')).toEqual(['Ada', '\u017dofie', 'Ruben', 'Robin']);
});

test('a student is found by any part of the name, without its case and accents, words in any order', () => {
  expect(names('ash')).toEqual(['Ruben', 'Robin']);
  expect(names('  ASHDOWN rob ')).toEqual(['Robin']);
  expect(names('zofie marsal')).toEqual(['\u017dofie']);
  expect(names('nobody')).toEqual([]);
});
