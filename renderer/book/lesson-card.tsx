import { useState } from 'react';
import type { Student, StudentOverview } from '../../core/model/book.ts';
import { VIEW_LABELS } from '../../core/model/words.ts';
import { isolated } from '../../core/model/isolated.ts';
import { addSwing, removeLesson, removeSwing } from './state/book-actions.ts';
import { attempt } from '../shell/state/messages.ts';
import { openSwing } from '../swing/state/swing-actions.ts';
import styles from './book-page.module.css';
import { LessonForm } from './lesson-form.tsx';
import { Button } from '../controls/button.tsx';
import { ConfirmDialog } from '../controls/dialog.tsx';
import { lessonName } from '../shell/words.ts';

type LessonEntry = StudentOverview['lessons'][number];
type SwingEntry = LessonEntry['swings'][number];

/** One lesson with its swings; a swing opens as its lesson sheet. */
export function LessonCard({ entry, student }: { readonly entry: LessonEntry; readonly student: Student }) {
  const { lesson, swings } = entry;
  const [open, setOpen] = useState<'change' | 'remove' | null>(null);
  const [leaving, setLeaving] = useState<SwingEntry | null>(null);
  const name = lessonName(lesson);
  const [bare] = swings.filter(({ clips }) => clips.length === 0);
  const nextHere =
    swings.length === 0
      ? 'Press “Add a swing”: its clips come next.'
      : bare === undefined
        ? null
        : `Press “${isolated(bare.swing.label)}” to add the clips you filmed.`;
  const add = async () => {
    await openSwing(() => addSwing(lesson.id, swings.length));
  };
  return (
    <article className={styles.lesson} aria-label={name}>
      <div className={styles.titleRow}>
        <h3>{name}</h3>
        <Button look="quiet" small label={`Change lesson ${name}`} onPress={() => setOpen('change')}>
          Change
        </Button>
        <Button look="quiet" small label={`Remove lesson ${name}`} onPress={() => setOpen('remove')}>
          Remove
        </Button>
      </div>
      {lesson.note === '' ? null : (
        <p className={styles.note} dir="auto">
          {lesson.note}
        </p>
      )}
      <div className={styles.swings}>
        {swings.map((swing) => (
          <div key={swing.swing.id} className={styles.swing}>
            <Button onPress={() => void attempt(() => openSwing(swing.swing.id))}>
              <span>
                <strong>{isolated(swing.swing.label)}</strong> <span className={styles.small}>{viewsOf(swing)}</span>
              </span>
            </Button>
            <Button label={`Remove ${isolated(swing.swing.label)} of ${name}`} onPress={() => setLeaving(swing)}>
              ×
            </Button>
          </div>
        ))}
        <Button look={swings.length === 0 ? 'main' : 'quiet'} onPress={() => void attempt(add)}>
          Add a swing
        </Button>
      </div>
      {nextHere === null ? null : <p className={styles.small}>{nextHere}</p>}
      {open === 'change' ? <LessonForm student={student} lesson={lesson} onClose={() => setOpen(null)} /> : null}
      {open === 'remove' ? (
        <ConfirmDialog
          title={`Remove the lesson of ${name}?`}
          what="Its swings and marks go with it, and the clips that Baybook copied. This cannot be taken back."
          doIt="Remove lesson"
          onDo={() => void attempt(() => removeLesson(lesson.id))}
          onClose={() => setOpen(null)}
        />
      ) : null}
      {leaving === null ? null : (
        <ConfirmDialog
          title={`Remove ${isolated(leaving.swing.label)}?`}
          what="Its clips and marks go with it. This cannot be taken back."
          doIt="Remove swing"
          onDo={() => void attempt(() => removeSwing(leaving.swing.id))}
          onClose={() => setLeaving(null)}
        />
      )}
    </article>
  );
}

function viewsOf(swing: SwingEntry): string {
  if (swing.clips.length === 0) return 'no clip yet';
  return swing.clips.map((clip) => VIEW_LABELS[clip.view].toLowerCase()).join(', ');
}
