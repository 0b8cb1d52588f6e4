import { readingTrouble } from './file-trouble.ts';

/** How long one read of an open file may take, ms: a disk that has to start turning first takes some seconds. */
const READ_LIMIT_MS = 20_000;

let silent = 0;

/**
 * Whether something that the disk was asked for has not been answered for too long. A thread of this process waits for it
 * then, and would be waited for at an orderly end of the process.
 */
export const isDiskSilent = (): boolean => silent > 0;

/**
 * Waits for one read of the file at `path`, as long as a disk may take. @throws AppError `file-unreadable` when it does not
 * answer, and what `work` throws.
 */
export async function unlessSilent<Result>(
  work: Promise<Result>,
  path: string,
  limitMs = READ_LIMIT_MS,
): Promise<Result> {
  let timer: NodeJS.Timeout | undefined;
  const limit = new Promise<never>((_, fail) => {
    timer = setTimeout(() => {
      silent += 1;
      const answered = (): void => void (silent -= 1);
      work.then(answered, answered);
      // As a disk answers that was pulled out.
      fail(readingTrouble({ code: 'ETIMEDOUT' }, path));
    }, limitMs);
  });
  return Promise.race([work, limit]).finally(() => clearTimeout(timer));
}
