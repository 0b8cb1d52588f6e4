import type { Book } from '../../core/book/book.ts';
import { readPatternFile } from '../../core/pattern-file/read-pattern-file.ts';
import { writePatternFile } from '../../core/pattern-file/write-pattern-file.ts';
import type { Handlers } from './answer.ts';
import type { Dialogs } from './dialogs.ts';
import { plainFileName } from './plain-file-name.ts';

type PatternRequest = Extract<keyof Handlers, `pattern/${string}`>;

/** What the program does with the book's pattern for the window. */
export function patternHandlers(book: Book, dialogs: Dialogs): Pick<Handlers, PatternRequest> {
  return {
    'pattern/read': () => book.readPattern(),

    'pattern/write'(pattern) {
      book.writePattern(pattern);
      return null;
    },

    'pattern/reset'() {
      book.resetPattern();
      return book.readPattern();
    },

    async 'pattern/export'() {
      const { pattern } = book.readPattern();
      const path = await dialogs.choosePatternFile(`${plainFileName(pattern.name) || 'pattern'}.json`);
      if (path === null) return null;
      // The system's dialog has asked before it named a file that is there already.
      await writePatternFile(path, pattern, { overwrite: true });
      return { path };
    },

    async 'pattern/import'() {
      const path = await dialogs.choosePatternToRead();
      if (path === null) return null;
      book.writePattern(await readPatternFile(path));
      return { path, read: book.readPattern() };
    },
  };
}
