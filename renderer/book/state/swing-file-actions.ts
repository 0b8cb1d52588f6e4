import { say } from '../../../core/model/say.ts';
import type { View } from '../../../core/model/words.ts';
import type { ChosenSwingFile } from '../../../electron/ipc/contract.ts';
import { ask } from '../../api.ts';
import { chooseStudent, readBook } from './book-actions.ts';
import { runJob } from '../../shell/state/jobs.ts';
import { attempt, tellDone } from '../../shell/state/messages.ts';
import { openPlace } from '../../swing/state/edit-actions.ts';
import { openSwing } from '../../swing/state/swing-actions.ts';

/** Asks for a swing file; null when the coach closed the dialog. */
export async function chooseSwingFile(): Promise<ChosenSwingFile | null> {
  return ask('swing/choose-file', null);
}

export interface SwingChoice {
  readonly path: string;
  /** null: a new student. */
  readonly studentId: string | null;
  readonly files: readonly { readonly view: View; readonly path: string }[];
}

/** Brings the swing in as a new one, and opens it, or offers to where the coach opened another meanwhile. */
export async function importSwing(choice: SwingChoice): Promise<void> {
  const isWanted = openPlace.holds();
  const swing = await runJob(say`Comparing the clips with the swing file`, (jobId) =>
    ask('swing/import', { jobId, ...choice }),
  );
  await readBook();
  const open = async (): Promise<void> => {
    await openSwing(swing.id);
    if (choice.studentId !== null) chooseStudent(choice.studentId);
  };
  if (isWanted()) return open();
  tellDone(say`The swing of the file is in the book.`, {
    label: say`Open it`,
    run: () => void attempt(open),
    waits: true,
  });
}
