import { extname, join, resolve } from 'node:path';
import { StandingProcess } from '../../files/standing-process.ts';
import type { CodedStart } from '../../time/first-picture.ts';
import { readClipFile } from './clip-format.ts';

/** Beside this file, run from TypeScript as it is or from the built program. */
const ENTRY = join(import.meta.dirname, `container-process${extname(import.meta.filename)}`);

const reader = new StandingProcess<{ readonly path: string }, CodedStart | null>(ENTRY);

/** Makes the process ready that reads containers, so that the first clip need not wait for it. */
export const prepareContainerReader = (): void => reader.prepare();

/**
 * What makes the first picture of a clip, as `readCodedStart`, read by a process of its own within four seconds. Null also
 * where that process gives up, whatever the reason: ffmpeg then makes the picture, and says what is wrong with the file.
 *
 * @throws AppError as `readClipFile`.
 */
export async function askCodedStart(path: string): Promise<CodedStart | null> {
  const { format } = await readClipFile(path);
  return format === 'mov' ? reader.ask({ path: resolve(path) }).catch(() => null) : null;
}
