import type { BookSwing, StudentOverview } from '../../core/model/book.ts';
import { app } from '../state/app.ts';
import { attempt } from '../state/messages.ts';
import { useStore } from '../state/store.ts';
import { chooseThen } from '../state/swing-actions.ts';
import { Picker } from './parts/fields.tsx';
import styles from './sheet-page.module.css';
import { lessonName } from './words.ts';

interface EarlierSwing {
  readonly value: string;
  readonly label: string;
}

/** The student's other swings with a clip, of this day and before, newest first. */
export function swingsBefore(swing: BookSwing, students: readonly StudentOverview[]): readonly EarlierSwing[] {
  const lessons = students.find((entry) => entry.student.id === swing.student.id)?.lessons ?? [];
  return lessons
    .filter((entry) => entry.lesson.date <= swing.lesson.date)
    .flatMap((entry) =>
      entry.swings
        .filter((other) => other.swing.id !== swing.swing.id && other.clips.length > 0)
        .map((other) => ({ value: other.swing.id, label: `${lessonName(entry.lesson)}, ${other.swing.label}` })),
    );
}

/** Chooses the swing of "then"; says where one would come from while there is none. */
export function ThenPicker(props: { readonly swing: BookSwing; readonly earlier: readonly EarlierSwing[] }) {
  const { swing, earlier } = props;
  const then = useStore(app, (state) => state.then);
  if (earlier.length === 0)
    return swing.clips.length === 0 ? null : (
      <p className={styles.soft}>
        To compare, {swing.student.firstName} needs an earlier lesson or another swing with a clip: “Book” leads there,
        then “Add a lesson”.
      </p>
    );
  return (
    <Picker
      label="Compare with an earlier swing (then)"
      value={then?.swing.id ?? ''}
      options={earlier}
      none="No comparison"
      onChange={(id) => void attempt(() => chooseThen(id))}
    />
  );
}
