import type { StudentOverview } from '../../core/model/book.ts';

/**
 * The students whose name holds every one of the typed words, whatever the case and the accents; those seen last come
 * first. A student without a lesson has only just come: before all others.
 */
export function listedStudents(students: readonly StudentOverview[], typed: string): readonly StudentOverview[] {
  const words = plain(typed)
    .split(/\s+/)
    .filter((word) => word !== '');
  return students
    .filter(({ student: { firstName, lastName } }) => {
      const name = plain(`${firstName} ${lastName}`);
      return words.every((word) => name.includes(word));
    })
    .toSorted((one, other) => lastSeen(other).localeCompare(lastSeen(one)));
}

/** ISO date of the last lesson; one that comes after all others where there is none. */
function lastSeen({ lessons }: StudentOverview): string {
  const dates = lessons.map(({ lesson }) => lesson.date).toSorted();
  return dates.at(-1) ?? '9999-12-31';
}

function plain(text: string): string {
  return text.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();
}
