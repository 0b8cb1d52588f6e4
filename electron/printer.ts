import type { BrowserWindow } from 'electron';
import { AppError } from '../core/model/errors.ts';
import { say } from '../core/model/say.ts';

/** What Electron says where the coach closed the dialog. */
const CLOSED = 'Print job canceled';

/** Prints what the window shows for paper, by the system's dialog. */
export function windowPrinter(getWindow: () => BrowserWindow | null) {
  return {
    /**
     * `paper`: of pages that have that size and their own margins; null: as the system has it. Answers false where the coach
     * closed the dialog. @throws AppError `not-printed`.
     */
    async print(paper: 'A4' | 'Letter' | null): Promise<boolean> {
      const contents = getWindow()?.webContents;
      if (contents === undefined) return false;
      // Some systems show a dialog without any choice, others fail without a word.
      if ((await contents.getPrintersAsync()).length === 0)
        throw new AppError(
          'not-printed',
          say`No printer is set up on this computer. Add one in the system’s settings, then print again.`,
        );
      const pages = paper === null ? {} : ({ pageSize: paper, margins: { marginType: 'none' } } as const);
      return new Promise((resolve, reject) => {
        contents.print({ printBackground: true, ...pages }, (isPrinted, reason) => {
          if (isPrinted || reason === CLOSED) return resolve(isPrinted);
          const sentence = say`The printer took nothing. Look whether it is on and connected, and print again.`;
          reject(new AppError('not-printed', sentence, { detail: { reason } }));
        });
      });
    },
  };
}
