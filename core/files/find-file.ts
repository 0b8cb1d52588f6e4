import { extname, join, resolve } from 'node:path';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import type { FileFacts, ProbeAnswer, ProbeOrder, StandingKind } from './file-probe.ts';
import { isAbsent, readingTrouble } from './file-trouble.ts';
import { StandingProcess } from './standing-process.ts';

export type { FileFacts } from './file-probe.ts';

/** Beside this file, run from TypeScript as it is or from the built program. */
const ENTRY = join(import.meta.dirname, `probe-process${extname(import.meta.filename)}`);

const probe = new StandingProcess<ProbeOrder, ProbeAnswer>(ENTRY);

/**
 * The file at `path`, as a process of its own sees it within four seconds; null when nothing stands there. `headBytes` of
 * its beginning come along.
 *
 * @throws AppError `file-unreadable`: a folder, a pipe, a device; no right to read it; the disk does not answer.
 */
export async function findFile(path: string, headBytes = 0): Promise<FileFacts | null> {
  if (path === '') throw new AppError('file-not-found', say`No file was named. Choose one.`);
  const whole = resolve(path);
  const answer = (await probe.ask({ path: whole, headBytes })) ?? NO_ANSWER;
  if (answer.type === 'file') return answer.facts;
  if (answer.type === 'other')
    throw new AppError('file-unreadable', NO_FILE[answer.kind](path), { detail: { path, standing: answer.kind } });
  const refusal = { code: answer.code };
  if (isAbsent(refusal)) return null;
  throw readingTrouble(refusal, path);
}

/** The same for a file that must be there. @throws AppError `file-not-found` as well. */
export async function requireFile(path: string, headBytes = 0): Promise<FileFacts> {
  const facts = await findFile(path, headBytes);
  if (facts === null) throw readingTrouble({ code: 'ENOENT' }, path);
  return facts;
}

/** Whether trouble with a file is that something else stands in its place. */
export const isNoFile = (error: unknown): boolean => error instanceof AppError && 'standing' in error.detail;

/** Makes a process ready for the next look, so that it need not be waited for. */
export const prepareFileProbe = (): void => probe.prepare();

const NO_FILE: Readonly<Record<Exclude<StandingKind, 'file'>, (path: string) => string>> = {
  folder: (path) => say`${path} is a folder, not a file. Choose a file in it.`,
  pipe: (path) => say`${path} is a pipe between programs, not a file. Choose a file.`,
  socket: (path) => say`${path} is a line between programs, not a file. Choose a file.`,
  device: (path) => say`${path} is a device, not a file. Choose a file.`,
};

/** As a disk answers that was pulled out. */
const NO_ANSWER = { type: 'refused', code: 'ETIMEDOUT' } as const;
