import { useState } from 'react';
import { lowered, say } from '../../core/model/say.ts';
import type { Student, StudentOverview } from '../../core/model/book.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';
import { fullLabelOf } from '../../core/measure/words/format.ts';
import { isolated } from '../../core/model/isolated.ts';
import { ListedPicture } from './listed-picture.tsx';
import { picturesOf, type LessonFrame } from './state/list-pictures.ts';
import { addSwing } from './state/book-actions.ts';
import { moveToBin } from '../shell/state/bin.ts';
import { attempt } from '../shell/state/messages.ts';
import { openBench } from '../bench/state/bench-actions.ts';
import { openSwing } from '../swing/state/swing-actions.ts';
import styles from './book-page.module.css';
import lay from '../controls/lay.module.css';
import { LessonForm } from './lesson-form.tsx';
import { Button } from '../controls/button.tsx';
import { lessonName } from '../shell/words.ts';

type LessonEntry = StudentOverview['lessons'][number];
type SwingEntry = LessonEntry['swings'][number];

/** One lesson with its swings; a swing opens as its lesson sheet. */
export function LessonCard({ entry, student }: { readonly entry: LessonEntry; readonly student: Student }) {
  const { lesson, swings } = entry;
  const [changing, setChanging] = useState(false);
  const pictures = picturesOf(entry);
  const worked = workedOnWords(entry);
  const name = lessonName(lesson);
  const [bare] = swings.filter(({ clips }) => clips.length === 0);
  const nextHere =
    swings.length === 0
      ? say`Press “Add a swing”: its clips come next.`
      : bare === undefined
        ? null
        : say`Press “${isolated(bare.swing.label)}” to add the clips you filmed.`;
  const add = async () => {
    await openSwing(() => addSwing(lesson.id, swings.length));
  };
  return (
    <article className={styles.lesson} aria-label={name}>
      <div className={styles.titleRow}>
        <h3>{name}</h3>
        <Button
          look="quiet"
          small
          label={say`Change lesson ${name}`}
          onPress={() => setChanging(true)}
        >{say`Change`}</Button>
        <Button
          look="quiet"
          small
          label={say`Remove lesson ${name}`}
          onPress={() => void attempt(() => moveToBin('lesson', lesson.id))}
        >{say`Remove`}</Button>
      </div>
      {lesson.note === '' ? null : (
        <p className={styles.note} dir="auto">
          {lesson.note}
        </p>
      )}
      {pictures.length === 0 ? null : (
        <div className={styles.pictures}>
          {pictures.map((picture) => (
            <button
              key={`${picture.clip} ${String(picture.frame)}`}
              type="button"
              aria-label={say`On the bench: ${pictureWords(picture)}, ${name}`}
              title={pictureWords(picture)}
              onClick={() => void attempt(() => openOnBench(picture))}
            >
              <ListedPicture of={picture} size="lesson" />
            </button>
          ))}
        </div>
      )}
      {worked === '' ? null : <p className={lay.soft}>{worked}</p>}
      <div className={styles.swings}>
        {swings.map((swing) => (
          <div key={swing.swing.id} className={styles.swing}>
            <Button onPress={() => void attempt(() => openSwing(swing.swing.id))}>
              <span>
                <strong>{isolated(swing.swing.label)}</strong> <span className={lay.soft}>{viewsOf(swing)}</span>
              </span>
            </Button>
            <Button
              label={say`Remove ${isolated(swing.swing.label)} of ${name}`}
              onPress={() => void attempt(() => moveToBin('swing', swing.swing.id))}
            >
              ×
            </Button>
          </div>
        ))}
        <Button
          look={swings.length === 0 ? 'main' : 'quiet'}
          onPress={() => void attempt(add)}
        >{say`Add a swing`}</Button>
      </div>
      {nextHere === null ? null : <p className={lay.soft}>{nextHere}</p>}
      {changing ? <LessonForm student={student} lesson={lesson} onClose={() => setChanging(false)} /> : null}
    </article>
  );
}

/** The swing of a picture, and the picture's frame on the bench. */
async function openOnBench({ swing, clip, frame }: LessonFrame): Promise<void> {
  if (await openSwing(swing)) openBench(clip, frame);
}

function pictureWords({ view, checkpoint }: LessonFrame): string {
  const what = checkpoint === null ? say`First frame` : CHECKPOINT_LABELS[checkpoint];
  return `${what}, ${lowered(VIEW_LABELS[view])}`;
}

/** What the page of the lesson names: what was found, else its first key thought; empty without either. */
function workedOnWords({ page }: LessonEntry): string {
  const found = (page?.findings ?? []).map(({ reading }) => fullLabelOf(reading));
  if (found.length > 0) return say`Worked on: ${found.join('; ')}.`;
  const [thought] = page?.keyThoughts ?? [];
  return thought === undefined ? '' : say`Key thought: ${thought}`;
}

function viewsOf(swing: SwingEntry): string {
  if (swing.clips.length === 0) return say`no clip yet`;
  return swing.clips.map((clip) => lowered(VIEW_LABELS[clip.view])).join(', ');
}
