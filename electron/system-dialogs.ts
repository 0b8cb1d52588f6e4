import { dialog, shell, type BrowserWindow, type OpenDialogOptions, type SaveDialogOptions } from 'electron';
import { say } from '../core/model/say.ts';
import { AppError } from '../core/model/errors.ts';
import type { Dialogs } from './ipc/dialogs.ts';

/** What cameras and phones write; "All files" stands beside it, for the rest. */
const CLIP_EXTENSIONS = ['mp4', 'mov', 'm4v', 'mkv', 'webm', 'avi', 'mts', 'm2ts', '3gp'];

const SWING_FILES = [{ name: say`Swing file`, extensions: ['json'] }];
const LESSON_FILES = {
  eml: say`Mail draft`,
  pdf: 'PDF',
  csv: say`Numbers for a spreadsheet`,
  json: say`Numbers`,
  mp4: say`Video`,
} as const;
const GOALS_FILES = [{ name: say`Goals file`, extensions: ['json'] }];

/** The system's dialogs, before the program's window. */
export function systemDialogs(getWindow: () => BrowserWindow | null): Dialogs {
  async function choose(options: OpenDialogOptions): Promise<string | null> {
    const window = getWindow();
    const { canceled, filePaths } = await (window === null
      ? dialog.showOpenDialog(options)
      : dialog.showOpenDialog(window, options));
    return canceled ? null : (filePaths[0] ?? null);
  }

  async function saveAs(options: SaveDialogOptions): Promise<string | null> {
    const window = getWindow();
    const { canceled, filePath } = await (window === null
      ? dialog.showSaveDialog(options)
      : dialog.showSaveDialog(window, options));
    return canceled || filePath === '' ? null : filePath;
  }

  return {
    chooseClip: () =>
      choose({
        title: say`Choose a clip`,
        properties: ['openFile'],
        filters: [
          { name: say`Clips`, extensions: CLIP_EXTENSIONS },
          { name: say`All files`, extensions: ['*'] },
        ],
      }),

    chooseStillsFolder: () =>
      choose({ title: say`Choose a folder for the stills`, properties: ['openDirectory', 'createDirectory'] }),

    chooseLessonFile: (suggestedName, ending) =>
      saveAs({
        title: say`Save what the lesson sends`,
        defaultPath: suggestedName,
        filters: [{ name: LESSON_FILES[ending], extensions: [ending] }],
      }),

    async openFile(path) {
      const trouble = await shell.openPath(path);
      if (trouble !== '')
        throw new AppError('file-unreadable', say`No program opened ${path}. Open it from its folder.`, {
          detail: { path, trouble },
        });
    },

    chooseSwingFile: (suggestedName) =>
      saveAs({
        title: say`Save the swing file`,
        defaultPath: suggestedName,
        filters: SWING_FILES,
      }),

    chooseSwingToRead: () =>
      choose({ title: say`Choose a swing file`, properties: ['openFile'], filters: SWING_FILES }),

    chooseGoalsFile: (suggestedName) =>
      saveAs({ title: say`Save the goals`, defaultPath: suggestedName, filters: GOALS_FILES }),

    chooseGoalsToRead: () =>
      choose({ title: say`Choose a goals file`, properties: ['openFile'], filters: GOALS_FILES }),

    chooseKeptChanges: () =>
      choose({
        title: say`Choose the file with the kept changes`,
        properties: ['openFile'],
        filters: [{ name: say`Kept changes`, extensions: ['json'] }],
      }),

    chooseKeepingFolder: () =>
      choose({ title: say`Choose a folder for the changes`, properties: ['openDirectory', 'createDirectory'] }),

    async showFolder(folder) {
      const trouble = await shell.openPath(folder);
      if (trouble !== '')
        throw new AppError(
          'file-not-found',
          say`The folder ${folder} could not be shown. Look whether it is still there.`,
          {
            detail: { trouble },
          },
        );
    },
  };
}
