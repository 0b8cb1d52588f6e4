import { basename, dirname } from 'node:path';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import type { ErrorCode } from '../model/errors.ts';

/**
 * The one place where what a system says about a file becomes a sentence that says what to do. The system's own code
 * stands in the error's `detail` and goes to the log, never into a sentence.
 */

type Doing = 'read' | 'write';

/**
 * A system's error has a code like EISDIR; those of SQLite and of Node itself have an underscore in it. What Node found out
 * by itself (ERR_FS_EISDIR) has the system's code in its `info`.
 */
function codeOf(error: unknown): string | null {
  if (typeof error !== 'object' || error === null || !('code' in error)) return null;
  if (typeof error.code !== 'string') return null;
  if (error.code.startsWith('ERR_FS_') && 'info' in error) return codeOf(error.info);
  return /^E[A-Z0-9]+$/.test(error.code) ? error.code : null;
}

/** Whether it was the system that refused something, in words that are not for people. */
export const isSystemError = (error: unknown): boolean => codeOf(error) !== null;
/** Whether the file system said that nothing stands at that path. */
export const isAbsent = (error: unknown): boolean => ['ENOENT', 'ENOTDIR'].includes(codeOf(error) ?? '');
/** Whether the file system said that something already stands at that path. */
export const isTaken = (error: unknown): boolean => codeOf(error) === 'EEXIST';

/** What the file system said while reading `path`, as a sentence for people. Anything not from there is handed back. */
export function readingTrouble(error: unknown, path: string): unknown {
  return fileTrouble(error, path, 'read');
}

/** What the file system said while writing `path`, as a sentence for people. Anything not from there is handed back. */
export function writingTrouble(error: unknown, path: string): unknown {
  return fileTrouble(error, path, 'write');
}

/**
 * The same for an error of which nobody has said what was being done, by what it says itself. For the last to be asked
 * before a sentence goes to people; an error that is not about a file (of a network, a process) is handed back too.
 */
export function systemTrouble(error: unknown): unknown {
  if (typeof error !== 'object' || error === null || !('syscall' in error)) return error;
  const call = String(error.syscall);
  const doing = READING_CALLS.has(call) ? 'read' : WRITING_CALLS.has(call) ? 'write' : null;
  if (doing === null) return error;
  return fileTrouble(error, 'path' in error ? String(error.path) : null, doing);
}

const READING_CALLS = new Set(['open', 'read', 'stat', 'lstat', 'fstat', 'access', 'scandir', 'opendir', 'realpath']);
const WRITING_CALLS = new Set(
  'write fsync mkdir mkdtemp rename link unlink rm rmdir ftruncate copyfile utime futime lutime chmod'.split(' '),
);

/** What a program said in words, at the end of a line as systems word it (POSIX strerror), about a file it was to write. */
export function reportedWritingTrouble(report: string, path: string): Error | null {
  const said = Object.entries(SAID_AS).find(([words]) => new RegExp(`: ${words}\\s*$`, 'm').test(report));
  const trouble = said === undefined ? null : writingTrouble({ code: said[1] }, path);
  return trouble instanceof Error ? trouble : null;
}

const SAID_AS: Readonly<Record<string, string>> = {
  'No space left on device': 'ENOSPC',
  'Disk quota exceeded': 'EDQUOT',
  'File too large': 'EFBIG',
  'Permission denied': 'EACCES',
  'Read-only file system': 'EROFS',
  'No such file or directory': 'ENOENT',
  'Not a directory': 'ENOTDIR',
  'Is a directory': 'EISDIR',
  'File name too long': 'ENAMETOOLONG',
};

/** `path`: null where it is not known; a handle that is read or written names none. */
function fileTrouble(error: unknown, path: string | null, doing: Doing): unknown {
  const code = codeOf(error);
  if (error instanceof AppError || code === null) return error;
  const where = path ?? say`this path`;
  const [kind, said] = (doing === 'read' ? inReading : inWriting)(code, where) ?? anyhow(code, where, doing);
  const sentence = path === null ? said.replace(/^t/, 'T') : said;
  return new AppError(kind, sentence, { cause: error, detail: { path, code } });
}

type Told = readonly [ErrorCode, string];

/** The kinds of trouble that do not depend on what was being done, but for the code of our own. */
function anyhow(code: string, path: string, doing: Doing): Told {
  const kind = doing === 'read' ? 'file-unreadable' : 'not-writable';
  switch (code) {
    case 'ENAMETOOLONG':
      return [kind, say`The name “${shortened(basename(path))}” is too long for this computer. Choose a shorter one.`];
    case 'ELOOP':
      return [kind, say`${path} is a link that leads round in a circle. Choose the file itself.`];
    case 'EBUSY':
    case 'ETXTBSY':
    case 'EAGAIN':
      return [kind, say`Another program is using ${path}. Close it there and try again.`];
    case 'EMFILE':
    case 'ENFILE':
      return [
        kind,
        say`Too many files are open on this computer for ${path}. Close other programs, or restart the computer, and try again.`,
      ];
    case 'ENOMEM':
      return [
        kind,
        say`This computer has no memory left for ${path}. Close other programs, or restart the computer, and try again.`,
      ];
    case 'EIO':
    case 'ENXIO':
    case 'ENODEV':
    case 'ESTALE':
    case 'ETIMEDOUT':
      return [kind, say`The disk of ${path} does not answer. Check that it is plugged in, and try again.`];
    default:
      return doing === 'read'
        ? [kind, say`${path} could not be read. Check the disk it is on, or choose another file.`]
        : [kind, say`${path} could not be written. Choose a folder you may write to.`];
  }
}

function inReading(code: string, path: string): Told | null {
  switch (code) {
    case 'ENOENT':
      return ['file-not-found', say`There is no file at ${path}. Check its name, or choose it again.`];
    case 'ENOTDIR':
      return ['file-not-found', say`There is no file at ${path}: a part of that path is no folder. Choose it again.`];
    case 'EISDIR':
      return ['file-unreadable', say`${path} is a folder, not a file. Choose a file in it.`];
    case 'EACCES':
    case 'EPERM':
      return ['file-unreadable', say`Baybook is not allowed to read ${path}. Check who may open it.`];
    default:
      return null;
  }
}

function inWriting(code: string, path: string): Told | null {
  switch (code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return ['disk-full', say`The disk is full: ${path} was not written. Make room and try again.`];
    case 'EFBIG':
      return ['disk-full', say`${path} is larger than that disk allows for one file; it was not written.`];
    case 'EEXIST':
      return ['file-exists', say`${path} is already there and was left as it is. Choose another name.`];
    case 'ENOENT':
      return ['not-writable', say`There is no folder ${dirname(path)}. Make it first, or choose another one.`];
    case 'ENOTDIR':
      return ['not-writable', say`A part of the path ${path} is a file, not a folder. Choose another folder.`];
    case 'EISDIR':
    case 'ENOTEMPTY':
      return ['not-writable', say`${path} is a folder, so no file was written there. Choose another name.`];
    case 'EACCES':
    case 'EPERM':
      return ['not-writable', say`Baybook is not allowed to write ${path}. Choose a folder you may write to.`];
    case 'EROFS':
      return ['not-writable', say`The disk of ${path} can only be read. Choose a folder on another disk.`];
    default:
      return null;
  }
}

/** Letters kept at either end of a name that is too long to be said. */
const KEPT = 24;

/** A long name with its middle left out: the end has its number. */
function shortened(name: string): string {
  return name.length <= 3 * KEPT ? name : `${name.slice(0, KEPT)} ... ${name.slice(-KEPT)}`;
}
