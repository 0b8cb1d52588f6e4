import type { BookSwing } from '../../../core/model/book.ts';
import { app } from '../../shell/state/app-state.ts';
import { createStore } from '../../shell/state/store.ts';
import { setConsent } from './edit-actions.ts';

/** Who waits for the coach's word on consent; null: nobody. */
export const consentAsked = createStore<{ readonly answer: (given: boolean) => void } | null>(null);

/** Whether consent must be confirmed before anything of the lesson goes out. */
export function needsConsent({ student, lesson }: Pick<BookSwing, 'student' | 'lesson'>): boolean {
  return student.child === true && lesson.consent !== true;
}

/**
 * Whether something of the open swing may be saved or go out: at once where no child is shown, or consent was confirmed for
 * this lesson; else once the coach has said so. Asked from several places it is asked once, for the last of them.
 */
export async function mayGoOut(): Promise<boolean> {
  const { swing } = app.get();
  if (swing === null || !needsConsent(swing)) return true;
  consentAsked.get()?.answer(false);
  return new Promise((resolve) => {
    consentAsked.update(() => ({
      answer(given) {
        consentAsked.update(() => null);
        const isSame = app.get().swing?.swing.id === swing.swing.id;
        if (given && isSame) setConsent(true);
        resolve(given && isSame);
      },
    }));
  });
}
