import type { Session } from 'electron';
import type { Book } from '../core/book/book.ts';
import type { FaultLog } from './fault-log.ts';
import type { FrameServer } from './frame-server.ts';

export interface TracePlaces {
  readonly book: Book;
  readonly frames: FrameServer;
  readonly session: Session;
  readonly log: FaultLog;
}

/**
 * Clears what the program keeps outside of the book of students, lessons, swings and clips that are no longer in it:
 * copies for quick stepping, Chromium's stores, and the log, whose entries may name files or people. To be called at
 * the start, for what a kill or another program left, and after each removal. Never rejects: what cannot be cleared now
 * stays noted in the book.
 */
export async function clearTracesOutside({ book, frames, session, log }: TracePlaces): Promise<void> {
  try {
    await frames.keepOnly(book.clipContents());
    if (!book.hasTracesOutside()) return;
    await Promise.all([session.clearCache(), session.clearCodeCaches({}), session.clearStorageData()]);
    log.clear();
    book.forgetTracesOutside();
  } catch (cause) {
    log.write('clearing what is left of a removal', cause);
  }
}
