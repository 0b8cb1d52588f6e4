import type { Book } from '../../core/book/book.ts';
import type { Pattern } from '../../core/model/pattern.ts';
import { readPatternFile } from '../../core/pattern-file/read-pattern-file.ts';
import { writePatternFile } from '../../core/pattern-file/write-pattern-file.ts';
import { written, type Handlers } from './answer.ts';
import type { Dialogs } from './dialogs.ts';
import { plainFileName } from './plain-file-name.ts';
import type { WriteRow } from './write-row.ts';

type PatternRequest = Extract<keyof Handlers, `pattern/${string}`>;

/** What the program does with the book's pattern for the window. */
export function patternHandlers(book: Book, dialogs: Dialogs, row: WriteRow<Pattern>): Pick<Handlers, PatternRequest> {
  return {
    'pattern/read': () => book.readPattern(),

    'pattern/write': async (pattern) => written(await row.put(pattern)),

    'pattern/reset'() {
      book.resetPattern();
      // What still waited to be written was of the pattern that is gone.
      row.drop();
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
      row.drop();
      return { path, read: book.readPattern() };
    },
  };
}
