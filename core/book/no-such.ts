import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';

const GONE = {
  student: say`That student is not in the book any more.`,
  lesson: say`That lesson is not in the book any more.`,
  swing: say`That swing is not in the book any more.`,
  clip: say`That clip is not in the book any more.`,
  'repeat check': say`That repeat check is not in the book any more.`,
} as const;

/** Nothing in the book has that id; most often it was removed in the meantime. */
export function noSuch(what: keyof typeof GONE, id: string): AppError {
  return new AppError('no-such-record', GONE[what], { detail: { what, id } });
}
