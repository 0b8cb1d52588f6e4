import { extname, join, resolve } from 'node:path';
import { StandingProcess } from '../../files/standing-process.ts';
import type { CodedStart } from '../../time/first-picture.ts';
import { readClipFile } from './clip-format.ts';
import type { ListedPictures } from './listed-pictures.ts';

/** Beside this file, run from TypeScript as it is or from the built program. */
const ENTRY = join(import.meta.dirname, `container-process${extname(import.meta.filename)}`);

export interface ContainerOrder {
  readonly path: string;
  readonly wants: 'start' | 'pictures';
}

const reader = new StandingProcess<ContainerOrder, CodedStart | ListedPictures | null>(ENTRY);

/** Makes the process ready that reads containers, so that the first clip need not wait for it. */
export const prepareContainerReader = (): void => reader.prepare();

/**
 * What makes the first picture of a clip, as `readCodedStart`, read by a process of its own within four seconds. Null also
 * where that process gives up, whatever the reason: ffmpeg then makes the picture, and says what is wrong with the file.
 *
 * @throws AppError as `readClipFile`.
 */
export async function askCodedStart(path: string): Promise<CodedStart | null> {
  const answer = await ask(path, 'start');
  return answer !== null && 'codec' in answer ? answer : null;
}

/** The same for the list of its pictures, as `readListedPictures`. */
export async function askListedPictures(path: string): Promise<ListedPictures | null> {
  const answer = await ask(path, 'pictures');
  return answer !== null && 'pts' in answer ? answer : null;
}

async function ask(path: string, wants: ContainerOrder['wants']): Promise<CodedStart | ListedPictures | null> {
  const { format } = await readClipFile(path);
  return format === 'mov' ? reader.ask({ path: resolve(path), wants }).catch(() => null) : null;
}
