import type { BookSwing } from '../../core/model/book.ts';
import { CHILD } from '../../core/measure/words/cautions.ts';
import { say } from '../../core/model/say.ts';
import { AppError } from '../../core/model/errors.ts';

/**
 * The last guard before something of a lesson is saved or goes out; the window asks the coach before it gets here.
 * @throws AppError `bad-request` where the student is a child and consent for this lesson is not confirmed.
 */
export function requireConsent({ student, lesson }: Pick<BookSwing, 'student' | 'lesson'>): void {
  if (student.child === true && lesson.consent !== true)
    throw new AppError('bad-request', `${CHILD} ${say`Confirm it on the lesson page.`}`);
}
