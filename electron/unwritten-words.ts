import { say } from '../core/model/say.ts';
import type { Book } from '../core/book/book.ts';
import { AppError } from '../core/model/errors.ts';
import { isolated } from '../core/model/isolated.ts';
import { INTERNAL_SENTENCE } from './ipc/answer.ts';
import type { Unwritten } from './ipc/unwritten.ts';

/** What is not written, in words for the coach. */

/** e.g. "1 change", "4 changes". */
export function changesInWords(count: number): string {
  return count === 1 ? say`1 change` : say`${String(count)} changes`;
}

/** How many edits an unwritten whole counts as. */
export function countOf({ edits, goals, settings }: Unwritten): number {
  return edits.length + (goals === null ? 0 : 1) + (settings === null ? 0 : 1);
}

/** Whose they are, a line each: "Robin Marsh, 2026-05-12, Swing 1: 3 changes". */
export function whoseInWords(book: Pick<Book, 'openSwing'>, { edits, goals, settings }: Unwritten): string {
  const counts = new Map<string, number>();
  for (const { edit } of edits) counts.set(edit.swingId, (counts.get(edit.swingId) ?? 0) + 1);
  const lines = [...counts].map(([swingId, count]) => `${swingName(book, swingId)}: ${changesInWords(count)}`);
  if (goals !== null) lines.push(say`Your goals: 1 change`);
  if (settings !== null) lines.push(say`Settings: 1 change`);
  return lines.join('\n');
}

/** A book that cannot be written can mostly still be read. */
function swingName(book: Pick<Book, 'openSwing'>, swingId: string): string {
  try {
    const { student, lesson, swing } = book.openSwing(swingId);
    const name = [student.firstName, student.lastName].filter((part) => part !== '').join(' ');
    return `${isolated(name)}, ${lesson.date}, ${isolated(swing.label)}`;
  } catch {
    return say`A swing`;
  }
}

/** What keeps something from being written, as a sentence. */
export function troubleInWords(trouble: unknown): string {
  return trouble instanceof AppError ? trouble.message : INTERNAL_SENTENCE;
}
