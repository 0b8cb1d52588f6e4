import { readFile, rm } from 'node:fs/promises';
import { basename } from 'node:path';
import type { Book } from '../book/book.ts';
import { readingTrouble } from '../files/file-trouble.ts';
import type { MailFile } from '../lesson-page/compose-mail.ts';
import type { Talk, TalkTake } from '../model/talk.ts';
import { closingOf, wholeTalk } from '../talk/whole-talk.ts';
import { readRecordedTakes, type RecordedTake } from '../talk-file/read-takes.ts';
import { readSaved, type SavedFilm } from '../talk-file/saved-film.ts';
import { takeFiles } from '../talk-file/take-files.ts';

/** The talk-through of a swing of the book, as it lies there. */
export interface BookTalk {
  /** Absolute; where the sounds lie. */
  readonly folder: string;
  /** As they were recorded; null where nothing is left of one. */
  readonly takes: readonly (TalkTake | null)[];
  /** The earlier swing that it shows, or null. */
  readonly thenId: string | null;
  /** A take that was said anew and broken off before it came in: which, and from which millisecond on. */
  readonly brokenOff: { readonly take: number; readonly from: number } | null;
  /** The video that was saved of it last, where it still lies there. */
  readonly saved: SavedFilm | null;
}

/**
 * Reads it; null where nothing was recorded. Takes that no edit names any more, since what was taken back cannot be made
 * again, are deleted. Not to be called while one is being recorded.
 * @throws AppError `no-such-record`, `file-unreadable`.
 */
export async function readBookTalk(book: Book, swingId: string): Promise<BookTalk | null> {
  const folder = book.talkFolder(swingId);
  const recorded = await readRecordedTakes(folder);
  const first = recorded.findIndex(({ take }) => take !== null);
  if (first < 0) return null;
  const named = book.namedTakes(swingId);
  const isLoose = (number: number): boolean => number > first && !named.has(number);
  const takes: (TalkTake | null)[] = [];
  let brokenOff: BookTalk['brokenOff'] = null;
  for (const [number, { take, begun, ended }] of recorded.entries()) {
    const isOffered = take !== null && isLoose(number) && !ended;
    if (isOffered) brokenOff = { take: number, from: begun.from ?? 0 };
    else if (isLoose(number)) await dropTake(folder, number);
    takes.push(isLoose(number) && !isOffered ? null : take);
  }
  return { folder, takes, thenId: thenIdOf(recorded), brokenOff, saved: await readSaved(folder) };
}

/** One that was only compared with and never shown is none. */
function thenIdOf(recorded: readonly RecordedTake[]): string | null {
  const shows = ({ take }: RecordedTake): boolean =>
    take?.events.some((event) => event.kind === 'show' && event.panes.some(({ which }) => which === 'then')) ?? false;
  return recorded.find((each) => each.begun.thenId !== null && shows(each))?.begun.thenId ?? null;
}

/** The talk-through with all that was put right in it, and with what the lesson page says at its end. */
export function talkOfBook(book: Book, swingId: string, { takes }: Pick<BookTalk, 'takes'>): Talk | null {
  const { page, talkEdits = [] } = book.openSwing(swingId);
  return wholeTalk(takes, talkEdits, closingOf(page));
}

/** No mail takes more, whatever else is in it; what is over is not even read. */
const MOST_MAIL_BYTES = 25_000_000;

/**
 * The video that was saved of the talk-through last, for a mail that takes it along where it fits; null: there is none, or not
 * any more. @throws AppError `no-such-record`, `file-unreadable`.
 */
export async function talkForMail(book: Book, swingId: string): Promise<MailFile | 'too large' | null> {
  const saved = await readSaved(book.talkFolder(swingId));
  if (saved === null) return null;
  if (saved.bytes > MOST_MAIL_BYTES) return 'too large';
  const bytes = await readFile(saved.path).catch((cause: unknown) => {
    throw readingTrouble(cause, saved.path);
  });
  return { name: basename(saved.path), type: 'video/mp4', bytes };
}

/** Deletes the files of a take. */
export async function dropTake(folder: string, take: number): Promise<void> {
  const { log, sound } = takeFiles(folder, take);
  // The log last: as long as it is there the sound is known to be of a take.
  await rm(sound, { force: true });
  await rm(log, { force: true });
}
