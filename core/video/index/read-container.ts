import { extname, join, resolve } from 'node:path';
import { StandingProcess } from '../../files/standing-process.ts';
import type { CodedStart } from '../../time/first-picture.ts';
import { readClipFile } from './clip-format.ts';
import type { FewPictures } from './few-pictures.ts';
import type { ListedPictures } from './listed-pictures.ts';

/** Beside this file, run from TypeScript as it is or from the built program. */
const ENTRY = join(import.meta.dirname, `container-process${extname(import.meta.filename)}`);

type Wish =
  | { readonly wants: 'start' | 'pictures' }
  /** Ticks of the clip. */
  | { readonly wants: 'few'; readonly times: readonly number[] };
export type ContainerOrder = { readonly path: string } & Wish;
export type ContainerAnswer = CodedStart | ListedPictures | FewPictures | null;

const reader = new StandingProcess<ContainerOrder, ContainerAnswer>(ENTRY);

/** Makes the process ready that reads containers, so that the first clip need not wait for it. */
export const prepareContainerReader = (): void => reader.prepare();

/**
 * What makes the first picture of a clip, as `readCodedStart`, read by a process of its own within four seconds. Null also
 * where that process gives up, whatever the reason: ffmpeg then makes the picture, and says what is wrong with the file.
 *
 * @throws AppError as `readClipFile`.
 */
export async function askCodedStart(path: string): Promise<CodedStart | null> {
  const answer = await ask(path, { wants: 'start' });
  return answer !== null && 'codec' in answer ? answer : null;
}

/** The same for the list of its pictures, as `readListedPictures`. */
export async function askListedPictures(path: string): Promise<ListedPictures | null> {
  const answer = await ask(path, { wants: 'pictures' });
  return answer !== null && 'pts' in answer ? answer : null;
}

/** The same for a small file of the pictures at these times (ticks of the clip), as `readFewPictures`. */
export async function askFewPictures(path: string, times: readonly number[]): Promise<FewPictures | null> {
  const answer = await ask(path, { wants: 'few', times });
  return answer !== null && 'head' in answer ? answer : null;
}

async function ask(path: string, wish: Wish): Promise<ContainerAnswer> {
  const { format } = await readClipFile(path);
  return format === 'mov' ? reader.ask({ path: resolve(path), ...wish }).catch(() => null) : null;
}
