import type { FrameRef } from '../model/frame.ts';
import type { ShownFrame } from '../time/clip-index.ts';
import type { BookDatabase } from './database.ts';

/**
 * Frame tables that clips had until they were settled, for as long as the book is open. A change that was under way at
 * that moment still names its frame by the number it had; with its time stamp it is known for the frame it means, so
 * that nothing a coach has placed is refused.
 */
const tables = new WeakMap<BookDatabase, Map<string, readonly ShownFrame[]>>();

/** Remembers the frames of a clip whose numbers have just changed. */
export function rememberNumbers(database: BookDatabase, clipId: string, frames: readonly ShownFrame[]): void {
  const known = tables.get(database) ?? new Map<string, readonly ShownFrame[]>();
  known.set(clipId, frames);
  tables.set(database, known);
}

/** Whether this was the name of a frame of the clip before its numbers changed. */
export function wasNamed(database: BookDatabase, clipId: string, { index, pts }: FrameRef): boolean {
  return tables.get(database)?.get(clipId)?.[index]?.pts === pts;
}
