import { latestKept } from '../../../core/model/edit.ts';

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

/** A new edit; what had been taken back is then gone, and so are the oldest that are too many for the book. */
export function withDone<Edit extends object>(history: History<Edit>, edit: Edit): History<Edit> {
  return { done: latestKept([...history.done, edit], charactersOf), undone: [] };
}

/** The latest edit goes on: it stands there as both together. */
export function withContinued<Edit extends object>(history: History<Edit>, both: Edit): History<Edit> {
  return withDone({ ...history, done: history.done.slice(0, -1) }, both);
}

const sizes = new WeakMap<object, number>();

/** As JSON; reckoned once. */
function charactersOf(edit: object): number {
  const size = sizes.get(edit) ?? JSON.stringify(edit).length;
  sizes.set(edit, size);
  return size;
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
