import { MOST_KEPT_EDITS } from '../../core/model/edit.ts';

/**
 * Edits that can be taken back (last one last) and edits that were taken back and can be made again, likewise. The book
 * keeps the same list; this one is what the window shows until the book has answered.
 */
export interface History<Edit> {
  readonly done: readonly Edit[];
  readonly undone: readonly Edit[];
}

export function emptyHistory<Edit>(): History<Edit> {
  return { done: [], undone: [] };
}

/** A new edit; what had been taken back is then gone. */
export function withDone<Edit>(history: History<Edit>, edit: Edit): History<Edit> {
  return { done: [...history.done, edit].slice(-MOST_KEPT_EDITS), undone: [] };
}

/** The edit to take back and the history after that, or null when there is none. */
export function undoing<Edit>(history: History<Edit>): { edit: Edit; history: History<Edit> } | null {
  const edit = history.done.at(-1);
  if (edit === undefined) return null;
  return { edit, history: { done: history.done.slice(0, -1), undone: [...history.undone, edit] } };
}

/** The edit to make again and the history after that, or null when there is none. */
export function redoing<Edit>(history: History<Edit>): { edit: Edit; history: History<Edit> } | null {
  const edit = history.undone.at(-1);
  if (edit === undefined) return null;
  return { edit, history: { done: [...history.done, edit], undone: history.undone.slice(0, -1) } };
}
