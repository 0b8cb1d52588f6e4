import { basename, dirname, resolve } from 'node:path';
import { say } from '../../core/model/say.ts';
import { clipPath } from '../../core/book/media.ts';
import { findFile } from '../../core/files/find-file.ts';
import { importSwing } from '../../core/jobs/import-swing.ts';
import type { BookSwing } from '../../core/model/book.ts';
import { AppError } from '../../core/model/errors.ts';
import { readSwingFile } from '../../core/swing-file/read-swing-file.ts';
import { swingFileOf } from '../../core/swing-file/swing-file-of.ts';
import { writeSwingFile } from '../../core/swing-file/write-swing-file.ts';
import type { Handlers } from './answer.ts';
import { requireConsent } from './consent.ts';
import type { Program } from './handlers.ts';
import { plainFileName } from './plain-file-name.ts';

type SwingFileRequest = 'swing/export' | 'swing/choose-file' | 'swing/import';
type Needs = Pick<Program, 'book' | 'dialogs' | 'granted' | 'jobs' | 'findFfmpeg'>;

/** A swing out of the book as a file, and a file into the book as a swing. */
export function swingFileHandlers(program: Needs): Pick<Handlers, SwingFileRequest> {
  const { book, dialogs, granted, jobs, findFfmpeg } = program;
  return {
    async 'swing/export'({ id }) {
      const swing = book.openSwing(id);
      requireConsent(swing);
      const path = await dialogs.chooseSwingFile(swingFileName(swing));
      if (path === null) return null;
      const paths = new Map<string, string>();
      for (const clip of swing.clips) paths.set(clip.id, await clipPath(book, clip.id));
      // What names the clips is that of their files now.
      const now = book.openSwing(id);
      // The system's dialog has asked before it named a file that is there already.
      const file = swingFileOf(now, (clip) => paths.get(clip.id) ?? '', dirname(path));
      await writeSwingFile(path, file, { overwrite: true });
      return { path };
    },

    async 'swing/choose-file'() {
      const path = await dialogs.chooseSwingToRead();
      if (path === null) return null;
      const { swing, folder } = await readSwingFile(path);
      granted.grantFile(path);
      const clips = [];
      for (const { view, file } of swing.clips) {
        const found = await localFile(folder, file);
        if (found !== null) granted.grantFile(found);
        clips.push({ view, name: basename(file.replaceAll('\\', '/')), path: found });
      }
      return { path, firstName: swing.student.firstName, ...swing.lesson, clips };
    },

    async 'swing/import'({ jobId, path, studentId, files }) {
      for (const each of [path, ...files.map((file) => file.path)])
        if (!granted.hasFile(each))
          throw new AppError('bad-request', say`Choose the swing file and its clips in the file dialog.`);
      const { swing } = await readSwingFile(path);
      const order = { swing, studentId, files: Object.fromEntries(files.map((file) => [file.view, file.path])) };
      return jobs.run(jobId, say`Bringing in a swing`, async (run) =>
        importSwing(book, order, await findFfmpeg(), run),
      );
    },
  };
}

/** A path that another computer answers for: to look there would tell it that this file was opened. */
const ELSEWHERE = /^(\\\\|\/\/)/;

/** The file that a swing file names, where it is on this computer; else null. */
async function localFile(folder: string, file: string): Promise<string | null> {
  const path = resolve(folder, file);
  if (ELSEWHERE.test(file) || ELSEWHERE.test(path)) return null;
  return findFile(path).then(
    (found) => (found === null ? null : path),
    () => null,
  );
}

/** What the dialog suggests, e.g. "Mara 2026-05-12 Swing 1.json". */
function swingFileName({ student, lesson, swing }: BookSwing): string {
  return `${plainFileName(`${student.firstName} ${lesson.date} ${swing.label}`)}.json`;
}
