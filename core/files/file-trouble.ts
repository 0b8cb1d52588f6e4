import { AppError } from '../model/errors.ts';

function codeOf(error: unknown): string | null {
  if (typeof error !== 'object' || error === null || !('code' in error)) return null;
  return typeof error.code === 'string' ? error.code : null;
}

/** Whether the file system said that nothing stands at that path. */
export const isAbsent = (error: unknown): boolean => ['ENOENT', 'ENOTDIR'].includes(codeOf(error) ?? '');
/** Whether the file system said that something already stands at that path. */
export const isTaken = (error: unknown): boolean => codeOf(error) === 'EEXIST';

/** What the file system said while reading `path`, as a sentence for people. Anything not from there is handed back. */
export function readingTrouble(error: unknown, path: string): unknown {
  const code = codeOf(error);
  if (error instanceof AppError || code === null) return error;
  const options = { cause: error, detail: { path, code } };
  if (isAbsent(error)) return new AppError('file-not-found', `There is no file at ${path}.`, options);
  if (code === 'EISDIR') return new AppError('file-unreadable', `${path} is a folder, not a file.`, options);
  if (code === 'EACCES' || code === 'EPERM')
    return new AppError('file-unreadable', `Baybook is not allowed to read ${path}. Check who may open it.`, options);
  return new AppError('file-unreadable', `${path} could not be read (${code}). Check the disk it is on.`, options);
}

/** What the file system said while writing `path`, as a sentence for people. Anything not from there is handed back. */
export function writingTrouble(error: unknown, path: string): unknown {
  const code = codeOf(error);
  if (error instanceof AppError || code === null) return error;
  const options = { cause: error, detail: { path, code } };
  if (code === 'ENOSPC' || code === 'EDQUOT')
    return new AppError('disk-full', `The disk is full: ${path} was not written. Make room and try again.`, options);
  if (code === 'EFBIG')
    return new AppError(
      'disk-full',
      `${path} is larger than that disk allows for one file; it was not written.`,
      options,
    );
  if (isTaken(error))
    return new AppError('file-exists', `${path} is already there and was left as it is. Choose another name.`, options);
  return new AppError(
    'not-writable',
    `${path} could not be written (${code}). Choose a folder you may write to.`,
    options,
  );
}
