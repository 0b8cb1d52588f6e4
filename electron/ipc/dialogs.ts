/** What the program asks the coach in the system's own dialogs. Each answers null when the coach closed it. */
export interface Dialogs {
  /** Absolute path of a clip file. */
  readonly chooseClip: () => Promise<string | null>;
  /** Absolute path of a folder for stills. */
  readonly chooseStillsFolder: () => Promise<string | null>;
  /** Where to write what a lesson sends, by the ending of its file; as for a swing file. */
  readonly chooseLessonFile: (
    suggestedName: string,
    ending: 'eml' | 'pdf' | 'csv' | 'json' | 'mp4',
  ) => Promise<string | null>;
  /** Opens a file in the program that the system has for it. @throws AppError `file-unreadable` where there is none. */
  readonly openFile: (path: string) => Promise<void>;
  /** Where to write the swing file; the system has asked before an existing file is named. */
  readonly chooseSwingFile: (suggestedName: string) => Promise<string | null>;
  /** Absolute path of a swing file to read. */
  readonly chooseSwingToRead: () => Promise<string | null>;
  /** Where to write the goals file; as for a swing file. */
  readonly chooseGoalsFile: (suggestedName: string) => Promise<string | null>;
  /** Absolute path of a goals file to read. */
  readonly chooseGoalsToRead: () => Promise<string | null>;
  /** Absolute path of a file with changes that were kept beside the book. */
  readonly chooseKeptChanges: () => Promise<string | null>;
  /** Absolute path of a folder for changes that cannot be written to the book. */
  readonly chooseKeepingFolder: () => Promise<string | null>;
  /** Shows a folder in the system's file manager. */
  readonly showFolder: (folder: string) => Promise<void>;
}
