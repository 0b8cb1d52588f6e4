import type { Session } from 'electron';
import type { Book } from '../core/book/book.ts';
import type { FaultLog } from './fault-log.ts';
import type { Outgoing } from './ipc/outgoing.ts';
import type { FrameServer } from './frame-server.ts';

export interface TracePlaces {
  readonly book: Book;
  readonly frames: Pick<FrameServer, 'keepOnly'>;
  /** What was dragged out of the window. */
  readonly outgoing: Pick<Outgoing, 'clear'>;
  readonly session: Pick<Session, 'clearCache' | 'clearCodeCaches' | 'clearStorageData'>;
  readonly log: Pick<FaultLog, 'clear' | 'write'>;
}

/** Counts the calls: what was removed while an earlier one ran is cleared by the later one, so only that may forget it. */
let latest = 0;

/**
 * Clears what the program keeps outside of the book of students, lessons, swings and clips that are no longer in it:
 * copies for quick stepping, Chromium's stores, and the log, whose entries may name files or people. To be called at
 * the start, for what a kill or another program left, and after each removal. Never rejects: what cannot be cleared now
 * stays noted in the book.
 */
export async function clearTracesOutside({ book, frames, outgoing, session, log }: TracePlaces): Promise<void> {
  latest += 1;
  const mine = latest;
  try {
    await Promise.all([frames.keepOnly(book.clipContents()), outgoing.clear()]);
    if (!book.hasTracesOutside()) return;
    await Promise.all([session.clearCache(), session.clearCodeCaches({}), session.clearStorageData()]);
    log.clear();
    if (mine === latest) book.forgetTracesOutside();
  } catch (cause) {
    log.write('clearing what is left of a removal', cause);
  }
}
