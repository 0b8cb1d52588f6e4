import type { Book } from '../../core/book/book.ts';
import type { Goals } from '../../core/model/goals.ts';
import { readGoalsFile } from '../../core/goals-file/read-goals-file.ts';
import { writeGoalsFile } from '../../core/goals-file/write-goals-file.ts';
import { written, type Handlers } from './answer.ts';
import type { Dialogs } from './dialogs.ts';
import { plainFileName } from './plain-file-name.ts';
import type { WriteRow } from './write-row.ts';

type GoalsRequest = Extract<keyof Handlers, `goals/${string}`>;

/** What the program does with the book's goals for the window. */
export function goalsHandlers(book: Book, dialogs: Dialogs, row: WriteRow<Goals>): Pick<Handlers, GoalsRequest> {
  return {
    'goals/read': () => book.readGoals(),

    'goals/write': async (goals) => written(await row.put(goals)),

    'goals/reset'() {
      book.resetGoals();
      // What still waited to be written was of the goals that are gone.
      row.drop();
      return book.readGoals();
    },

    async 'goals/export'() {
      const { goals } = book.readGoals();
      const path = await dialogs.chooseGoalsFile(`${plainFileName(goals.name) || 'goals'}.json`);
      if (path === null) return null;
      // The system's dialog has asked before it named a file that is there already.
      await writeGoalsFile(path, goals, { overwrite: true });
      return { path };
    },

    async 'goals/import'() {
      const path = await dialogs.chooseGoalsToRead();
      if (path === null) return null;
      book.writeGoals(await readGoalsFile(path));
      row.drop();
      return { path, read: book.readGoals() };
    },
  };
}
