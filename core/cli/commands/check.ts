import { openBook } from '../../book/open-book.ts';
import { findStrays, straySentences, type Strays } from '../../book/strays.ts';
import { AppError } from '../../model/errors.ts';
import { check, describeFacts, isMissing } from '../check.ts';
import type { Command } from '../command.ts';
import { requireBookIn } from '../placing-option.ts';

/** `baybook check`: what the program stands on here, and whether a book fits together. */
export const checkCommand: Command = {
  name: 'check',
  summary: 'Say which ffmpeg, Node, Electron and SQLite were found, and whether a book is whole.',
  operands: { shown: '', least: 0, most: 0 },
  options: {
    book: {
      type: 'string',
      value: 'DIR',
      help: 'look through this book as well: clips without a file, files without a clip',
    },
    json: { type: 'boolean', help: 'print JSON' },
  },
  details: ['Nothing is fetched or installed. Without ffmpeg or SQLite nothing works, so the exit code is 2 then.'],
  async run(args, { out }) {
    const folder = args.text('book');
    const strays = folder === undefined ? null : straysOf(folder);
    const facts = await check();
    const missing = [facts.ffmpeg, facts.sqlite].find(isMissing);
    if (!args.has('json')) for (const line of describeFacts(facts)) out(line);
    if (missing !== undefined) throw new AppError('runtime-missing', missing.missing);
    if (args.has('json')) out(JSON.stringify(strays === null ? facts : { ...facts, book: strays.found }));
    else if (strays !== null)
      for (const line of strays.said.length > 0 ? strays.said : ['The book fits together: every clip has its file.'])
        out(line);
  },
};

function straysOf(folder: string): { readonly found: Strays; readonly said: readonly string[] } {
  requireBookIn(folder);
  const book = openBook(folder);
  try {
    const found = findStrays(book);
    return { found, said: straySentences(found, book.media.path) };
  } finally {
    book.close();
  }
}
