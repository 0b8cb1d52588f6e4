import * as v from 'valibot';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import type { Goals, ReadGoals } from '../model/goals.ts';
import { argument } from '../parse/argument.ts';
import { parseGoalsFile, goals as goalsSchema, goalsFileOf } from '../parse/goals.ts';
import { SHIPPED_GOALS } from '../parse/shipped-goals.ts';
import type { BookDatabase } from './database.ts';

export interface GoalsOperations {
  /** The coach's own goals; where there are none, or they cannot be read, the shipped ones and a sentence why. */
  readGoals(): ReadGoals;
  /** Replaces the coach's own goals. Those that could not be read are set aside, not lost. @throws AppError `bad-request`. */
  writeGoals(goals: Goals): void;
  /** Goes back to the shipped goals: the coach's own are deleted, those that could not be read are set aside. */
  resetGoals(): void;
}

const shipped = { goals: SHIPPED_GOALS, shippedGoals: SHIPPED_GOALS, shipped: true };

const row = v.strictObject({ content: v.string() });

export function goalsOperations(database: BookDatabase): GoalsOperations {
  const stored = (): string | null => database.one(row, 'SELECT content FROM pattern WHERE aside = 0')?.content ?? null;

  function makeRoom(): void {
    const content = stored();
    if (content === null) return;
    const damaged = troubleOf(content) !== null;
    database.run(damaged ? 'UPDATE pattern SET aside = 1 WHERE aside = 0' : 'DELETE FROM pattern WHERE aside = 0');
  }

  return {
    readGoals() {
      const content = stored();
      if (content === null) return { ...shipped, trouble: null };
      const read = readContent(content);
      if (!(read instanceof AppError)) return { ...shipped, goals: read, shipped: false, trouble: null };
      const trouble = say`The goals kept in ${database.path} cannot be read, so the shipped ones are in use; yours stay in the book as they are. What is wrong with it: ${read.message}`;
      return { ...shipped, trouble };
    },

    writeGoals(goals) {
      const checked = argument(goalsSchema, goals, say`the goals`);
      database.write(() => {
        makeRoom();
        database.run('INSERT INTO pattern (aside, content) VALUES (0, ?)', JSON.stringify(goalsFileOf(checked)));
      });
    },

    resetGoals() {
      database.write(makeRoom);
    },
  };
}

const troubleOf = (content: string): AppError | null => {
  const read = readContent(content);
  return read instanceof AppError ? read : null;
};

function readContent(content: string): Goals | AppError {
  let json: unknown;
  try {
    json = JSON.parse(content);
  } catch (cause) {
    return new AppError('goals-file-invalid', say`It is not JSON.`, { cause });
  }
  try {
    return parseGoalsFile(json);
  } catch (error) {
    if (error instanceof AppError) return error;
    throw error;
  }
}
