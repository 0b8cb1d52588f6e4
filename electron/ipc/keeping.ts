import type { Book } from '../../core/book/book.ts';
import { noteArrival } from '../../core/book/arrivals.ts';
import { say } from '../../core/model/say.ts';
import { AppError } from '../../core/model/errors.ts';
import type { JobContext } from '../../core/jobs/job-context.ts';
import { keepPart, notKeptYet } from '../../core/jobs/keep-part.ts';
import type { PartToKeep } from '../../core/jobs/keep-part.ts';
import type { PartKept } from '../../core/model/book.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';

export interface KeepingOptions {
  readonly book: Book;
  readonly findFfmpeg: () => Promise<Ffmpeg>;
  /** Its pictures come from another file now. */
  readonly onKept: (before: string, now: string) => Promise<void>;
}

interface Entry {
  readonly stop: AbortController;
  /** Of whoever asked last. */
  report: JobContext['report'];
  readonly kept: Promise<PartKept>;
}

/** Takes parts of clips out of their files, one at a time, while the coach works on them. Each is taken once, whoever asks. */
export class Keeping {
  readonly #options: KeepingOptions;
  readonly #entries = new Map<string, Entry>();
  #last: Promise<unknown> = Promise.resolve();

  constructor(options: KeepingOptions) {
    this.#options = options;
  }

  /**
   * Resolves when the part of a clip is in the book's own file and pictures come from there.
   *
   * @throws AppError as `keepPart`; also `cancelled` when the clip was removed meanwhile, or whoever asks cancels.
   */
  async keep(part: PartToKeep, { signal, report }: JobContext): Promise<PartKept> {
    const entry = this.#entries.get(part.id) ?? this.#begin(part);
    entry.report = report;
    const stop = (): void => entry.stop.abort();
    if (signal.aborted) stop();
    signal.addEventListener('abort', stop);
    try {
      const kept = await entry.kept;
      await this.#options.onKept(part.id, kept.id);
      return kept;
    } finally {
      signal.removeEventListener('abort', stop);
    }
  }

  #begin(part: PartToKeep): Entry {
    const stop = new AbortController();
    const kept = this.#last.then(() => this.#take(part, entry));
    const entry: Entry = { stop, report: () => undefined, kept };
    this.#entries.set(part.id, entry);
    const end = (): void => void this.#entries.delete(part.id);
    this.#last = kept.then(end, end);
    const { database } = this.#options.book;
    noteArrival(
      database,
      part.id,
      kept.then(({ id }) => id),
    );
    return entry;
  }

  async #take(part: PartToKeep, entry: Entry): Promise<PartKept> {
    const { book, findFfmpeg } = this.#options;
    const run = {
      signal: entry.stop.signal,
      report: (label: string, done: number, total: number | null) => entry.report(label, done, total),
    };
    try {
      entry.stop.signal.throwIfAborted();
      return await keepPart(book, part, await findFfmpeg(), run);
    } catch (cause) {
      const isGone = cause instanceof AppError && cause.code === 'no-such-record';
      if (isGone || entry.stop.signal.aborted) throw new AppError('cancelled', say`Cancelled.`, { cause });
      throw cause instanceof AppError ? notKeptYet(cause, book.findClip(part.id)) : cause;
    }
  }
}
