import { lowered, say } from '../../core/model/say.ts';
import type { BookSwing, Lesson, StudentOverview } from '../../core/model/book.ts';
import { VIEW_LABELS } from '../../core/model/words.ts';
import type { View } from '../../core/model/words.ts';
import { isolated } from '../../core/model/isolated.ts';
import { lessonName } from '../shell/words.ts';

/** A swing that the open one can be compared with. */
export interface EarlierSwing {
  readonly value: string;
  readonly label: string;
  /** Whether both have a clip of one view: only the same view is compared. */
  readonly sharesView: boolean;
}

/** What is missing to compare, and the swing where it is mended; null: it is mended on the book's page. */
export interface CompareGap {
  readonly sentence: string;
  readonly leadsTo: { readonly swingId: string; readonly label: string } | null;
}

type LessonEntry = StudentOverview['lessons'][number];
type SwingEntry = LessonEntry['swings'][number];
type Viewed = Pick<BookSwing, 'student' | 'lesson' | 'swing'> & { readonly clips: readonly { readonly view: View }[] };

/** The student's other swings with a clip, of this day and before, newest first. */
export function swingsBefore(swing: Viewed, students: readonly StudentOverview[]): readonly EarlierSwing[] {
  return othersOf(swing, students)
    .filter(({ lesson, entry }) => lesson.date <= swing.lesson.date && entry.clips.length > 0)
    .map(({ lesson, entry }) => {
      const sharesView = entry.clips.some(({ view }) => swing.clips.some((clip) => clip.view === view));
      const only = sharesView || swing.clips.length === 0 ? '' : say` (${viewsOf(entry.clips)} only)`;
      return {
        value: entry.swing.id,
        label: `${lessonName(lesson)}, ${isolated(entry.swing.label)}${only}`,
        sharesView,
      };
    });
}

/** Why there is nothing to compare with yet, to be asked only where `swingsBefore` finds none. The nearest gap is told. */
export function gapBefore(swing: Viewed, students: readonly StudentOverview[]): CompareGap {
  const others = othersOf(swing, students);
  const sameDay = others.filter(({ lesson }) => lesson.date === swing.lesson.date);
  const [bare] = [...others.filter(({ lesson }) => lesson.date < swing.lesson.date), ...sameDay];
  if (bare !== undefined) {
    const name = say`${isolated(bare.entry.swing.label)} of ${lessonName(bare.lesson)}`;
    return {
      sentence: say`To compare, add the clips of ${name}: it has none yet.`,
      leadsTo: { swingId: bare.entry.swing.id, label: say`Open ${name}` },
    };
  }
  const empty = lessonsOf(swing, students).find(
    ({ lesson, swings }) => lesson.date <= swing.lesson.date && swings.length === 0,
  );
  if (empty !== undefined)
    return {
      sentence: say`To compare, the lesson of ${lessonName(empty.lesson)} needs a swing: “Students” leads there, then “Add a swing”.`,
      leadsTo: null,
    };
  const later = others.findLast(({ lesson }) => lesson.date > swing.lesson.date);
  if (later !== undefined) {
    const name = say`${isolated(later.entry.swing.label)} of ${lessonName(later.lesson)}`;
    return {
      sentence: say`This is the earliest swing of ${isolated(swing.student.firstName)}. To compare, open a later one: it stands beside this one there.`,
      leadsTo: { swingId: later.entry.swing.id, label: say`Open ${name}` },
    };
  }
  return {
    sentence: say`To compare, ${isolated(swing.student.firstName)} needs an earlier lesson or another swing with a clip: “Students” leads there, then “Add a lesson”.`,
    leadsTo: null,
  };
}

/** What is missing where the chosen earlier swing was filmed from elsewhere (that it was, the comparison itself says), else null. */
export function viewGap(now: Viewed, then: Viewed): CompareGap | null {
  if (now.clips.length === 0 || then.clips.some(({ view }) => now.clips.some((clip) => clip.view === view)))
    return null;
  const [thenViews, nowViews] = [viewsOf(then.clips), viewsOf(now.clips)];
  const name = say`${isolated(then.swing.label)} of ${lessonName(then.lesson)}`;
  return {
    sentence: say`To compare, add a clip ${thenViews} here, or one ${nowViews} to ${name}.`,
    leadsTo: { swingId: then.swing.id, label: say`Open ${name}` },
  };
}

function lessonsOf(swing: Viewed, students: readonly StudentOverview[]): readonly LessonEntry[] {
  return students.find(({ student }) => student.id === swing.student.id)?.lessons ?? [];
}

function othersOf(
  swing: Viewed,
  students: readonly StudentOverview[],
): readonly { readonly lesson: Lesson; readonly entry: SwingEntry }[] {
  return lessonsOf(swing, students).flatMap(({ lesson, swings }) =>
    swings.filter((entry) => entry.swing.id !== swing.swing.id).map((entry) => ({ lesson, entry })),
  );
}

function viewsOf(clips: readonly { readonly view: View }[]): string {
  return clips.map(({ view }) => lowered(VIEW_LABELS[view])).join(say` and `);
}
