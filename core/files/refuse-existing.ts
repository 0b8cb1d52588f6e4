import { access } from 'node:fs/promises';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';

/** Throws AppError `file-exists` when something stands at `path`. */
export async function refuseExisting(path: string): Promise<void> {
  const taken = await access(path).then(
    () => true,
    () => false,
  );
  if (!taken) return;
  throw new AppError('file-exists', say`${path} exists already; choose another name or remove it first.`, {
    detail: { path },
  });
}
