import type { BookSwing } from '../../core/model/book.ts';
import { app } from '../state/app.ts';
import { attempt } from '../state/messages.ts';
import { useStore } from '../state/store.ts';
import { chooseThen } from '../state/swing-actions.ts';
import { Picker } from './parts/fields.tsx';
import { lessonName } from './words.ts';

/** Chooses the swing of "then" among the student's other swings with a clip, newest first. */
export function ThenPicker({ swing }: { readonly swing: BookSwing }) {
  const students = useStore(app, (state) => state.students);
  const then = useStore(app, (state) => state.then);
  const lessons = students?.find((entry) => entry.student.id === swing.student.id)?.lessons ?? [];
  const options = lessons
    .filter((entry) => entry.lesson.date <= swing.lesson.date)
    .flatMap((entry) =>
      entry.swings
        .filter((other) => other.swing.id !== swing.swing.id && other.clips.length > 0)
        .map((other) => ({ value: other.swing.id, label: `${lessonName(entry.lesson)}, ${other.swing.label}` })),
    );
  if (options.length === 0) return null;
  return (
    <Picker
      label="Compare with an earlier swing (then)"
      value={then?.swing.id ?? ''}
      options={options}
      none="No comparison"
      onChange={(id) => void attempt(() => chooseThen(id))}
    />
  );
}
