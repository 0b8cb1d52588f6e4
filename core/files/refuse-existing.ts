import { access } from 'node:fs/promises';
import { AppError } from '../model/errors.ts';

/** Throws AppError `file-exists` when something stands at `path`. */
export async function refuseExisting(path: string): Promise<void> {
  const taken = await access(path).then(
    () => true,
    () => false,
  );
  if (!taken) return;
  throw new AppError('file-exists', `${path} exists already; choose another name or remove it first.`, {
    detail: { path },
  });
}
