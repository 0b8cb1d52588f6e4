import * as v from 'valibot';
import { AppError } from '../model/errors.ts';
import type { Pattern, ReadPattern } from '../model/pattern.ts';
import { argument } from '../parse/argument.ts';
import { parsePatternFile, pattern as patternSchema, patternFileOf } from '../parse/pattern.ts';
import { SHIPPED_PATTERN } from '../parse/shipped-pattern.ts';
import type { BookDatabase } from './database.ts';

export interface PatternOperations {
  /** The coach's own pattern; where there is none, or it cannot be read, the shipped one and a sentence why. */
  readPattern(): ReadPattern;
  /** Replaces the coach's own pattern. One that could not be read is set aside, not lost. @throws AppError `bad-request`. */
  writePattern(pattern: Pattern): void;
  /** Goes back to the shipped pattern: the coach's own is deleted, one that could not be read is set aside. */
  resetPattern(): void;
}

const shipped = { pattern: SHIPPED_PATTERN, shippedPattern: SHIPPED_PATTERN, shipped: true };

const row = v.strictObject({ content: v.string() });

export function patternOperations(database: BookDatabase): PatternOperations {
  const stored = (): string | null => database.one(row, 'SELECT content FROM pattern WHERE aside = 0')?.content ?? null;

  function makeRoom(): void {
    const content = stored();
    if (content === null) return;
    const damaged = troubleOf(content) !== null;
    database.run(damaged ? 'UPDATE pattern SET aside = 1 WHERE aside = 0' : 'DELETE FROM pattern WHERE aside = 0');
  }

  return {
    readPattern() {
      const content = stored();
      if (content === null) return { ...shipped, trouble: null };
      const read = readContent(content);
      if (!(read instanceof AppError)) return { ...shipped, pattern: read, shipped: false, trouble: null };
      const trouble =
        `The pattern kept in ${database.path} cannot be read, so the shipped one is in use; yours was left as it is and ` +
        `stays in the book. What is wrong with it: ${read.message}`;
      return { ...shipped, trouble };
    },

    writePattern(pattern) {
      const checked = argument(patternSchema, pattern, 'the pattern');
      database.write(() => {
        makeRoom();
        database.run('INSERT INTO pattern (aside, content) VALUES (0, ?)', JSON.stringify(patternFileOf(checked)));
      });
    },

    resetPattern() {
      database.write(makeRoom);
    },
  };
}

const troubleOf = (content: string): AppError | null => {
  const read = readContent(content);
  return read instanceof AppError ? read : null;
};

function readContent(content: string): Pattern | AppError {
  let json: unknown;
  try {
    json = JSON.parse(content);
  } catch (cause) {
    return new AppError('pattern-file-invalid', 'It is not JSON.', { cause });
  }
  try {
    return parsePatternFile(json);
  } catch (error) {
    if (error instanceof AppError) return error;
    throw error;
  }
}
