import { readFile } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { say } from '../model/say.ts';
import { readingTrouble } from '../files/file-trouble.ts';
import { requireFile } from '../files/find-file.ts';
import { unlessSilent } from '../files/unless-silent.ts';
import { writeWholeFile } from '../files/write-whole-file.ts';
import { AppError } from '../model/errors.ts';
import { parseTalkFile, type TalkFile } from './parse-talk-file.ts';

/** Bytes. An hour with a pointer that never rests stays below; a video given by mistake does not. */
const MAXIMUM_TALK_FILE_BYTES = 256 * 1024 * 1024;

export interface ReadTalk {
  readonly talk: TalkFile;
  /** Absolute; what relative paths in it start from. */
  readonly folder: string;
}

/**
 * Reads a talk-through from the disk.
 *
 * @throws AppError `file-not-found`, `file-unreadable`, `file-empty`, `talk-file-invalid`, `talk-file-newer`.
 */
export async function readTalkFile(path: string): Promise<ReadTalk> {
  const whole = resolve(path);
  const text = await readText(whole);
  let content: unknown;
  try {
    content = JSON.parse(text);
  } catch (cause) {
    throw notJson(whole, cause);
  }
  return { talk: parseTalkFile(content), folder: dirname(whole) };
}

async function readText(path: string): Promise<string> {
  try {
    const { bytes } = await requireFile(path);
    if (bytes === 0) throw new AppError('file-empty', say`${path} is empty.`);
    if (bytes > MAXIMUM_TALK_FILE_BYTES)
      throw new AppError('talk-file-invalid', say`${path} is too large. Choose the .json of a talk-through.`);
    return new TextDecoder('utf-8', { fatal: true }).decode(await unlessSilent(readFile(path), path));
  } catch (error) {
    if (error instanceof TypeError) throw notJson(path, error);
    throw readingTrouble(error, path);
  }
}

function notJson(path: string, cause: unknown): AppError {
  return new AppError('talk-file-invalid', say`${path} is not JSON. Choose the .json of a talk-through.`, {
    cause,
    detail: { path },
  });
}

/**
 * Writes a talk-through, whole or not at all.
 *
 * @throws AppError `file-exists` unless `overwrite`, `disk-full`, `not-writable`, `talk-file-invalid` when it would not be
 *   read back.
 */
export async function writeTalkFile(
  path: string,
  talk: TalkFile,
  options: { overwrite?: boolean | undefined } = {},
): Promise<void> {
  await writeWholeFile(resolve(path), `${JSON.stringify(parseTalkFile(talk))}\n`, options);
}
