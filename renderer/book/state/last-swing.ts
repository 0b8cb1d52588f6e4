import type { Lesson, Student, StudentOverview } from '../../../core/model/book.ts';
import { app } from '../../shell/state/app-state.ts';

/** Where the window keeps the id of the swing that was open last; of itself it tells nothing of a student. */
const KEY = 'last-swing';

/** Remembers each swing that opens, from now on, and forgets one that is in the book no more. */
export function rememberSwings(): void {
  let open: string | null = null;
  app.subscribe(() => {
    const { swing, students } = app.get();
    const id = swing?.swing.id ?? null;
    if (id !== null && id !== open) localStorage.setItem(KEY, id);
    open = id;
    if (id === null && students !== null && lastSwing(students) === null) localStorage.removeItem(KEY);
  });
}

/** A swing of the list, with whose and of which lesson it is. */
export interface ListedSwing {
  readonly id: string;
  readonly label: string;
  readonly student: Student;
  readonly lesson: Lesson;
}

/** The swing that was open last, also before the program was closed; null where there is none, or it is gone. */
export function lastSwing(students: readonly StudentOverview[]): ListedSwing | null {
  const last = localStorage.getItem(KEY);
  if (last === null) return null;
  for (const { student, lessons } of students)
    for (const { lesson, swings } of lessons) {
      const found = swings.find(({ swing }) => swing.id === last);
      if (found !== undefined) return { id: last, label: found.swing.label, student, lesson };
    }
  return null;
}
