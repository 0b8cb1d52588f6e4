import type { Book } from '../../core/book/book.ts';
import { daysLeft } from '../../core/book/bin-stay.ts';
import type { Handlers } from './answer.ts';

/** What the program does for requests about what is removed. */
export function binHandlers(program: {
  readonly book: Book;
  readonly openClips: { closeAll(): Promise<void> };
  readonly clearTraces: () => Promise<void>;
}): Pick<Handlers, 'bin/list' | 'bin/move' | 'bin/put-back' | 'bin/empty'> {
  const { book, openClips, clearTraces } = program;
  return {
    'bin/list': () => book.listBin().map((entry) => ({ ...entry, daysLeft: daysLeft(entry, new Date()) })),

    async 'bin/move'({ kind, id }) {
      // Files of its clips that are being looked at are let go first.
      await openClips.closeAll();
      return book.moveToBin(kind, id, new Date().toISOString());
    },

    'bin/put-back': ({ id }) => book.putBack(id),

    async 'bin/empty'({ id }) {
      if (id === null) book.emptyBin();
      else book.removeFromBin(id);
      await clearTraces();
      return null;
    },
  };
}
