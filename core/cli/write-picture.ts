import { open } from 'node:fs/promises';
import { isAbsent } from '../files/file-trouble.ts';
import { writeWholeFile } from '../files/write-whole-file.ts';
import { AppError } from '../model/errors.ts';

const PNG_SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

/**
 * Writes a PNG where the coach said. An earlier PNG (or an empty file) there is replaced, anything else is left alone:
 * a mistyped --out must not cost a clip or a swing file.
 * @returns whether an earlier picture was replaced.
 * @throws AppError file-exists, not-writable, disk-full
 */
export async function writePicture(path: string, png: Uint8Array): Promise<boolean> {
  const before = await whatStandsAt(path);
  if (before === 'other')
    throw new AppError(
      'file-exists',
      `${path} is there already and is no PNG, so it was left alone. Choose another name.`,
    );
  await writeWholeFile(path, png, { overwrite: before !== 'nothing' });
  return before === 'png';
}

async function whatStandsAt(path: string): Promise<'nothing' | 'empty' | 'png' | 'other'> {
  let file;
  try {
    file = await open(path, 'r');
  } catch (error) {
    return isAbsent(error) ? 'nothing' : 'other';
  }
  try {
    const head = Buffer.alloc(PNG_SIGNATURE.length);
    const { bytesRead } = await file.read(head, 0, head.length, 0);
    if (bytesRead === 0) return 'empty';
    return head.equals(PNG_SIGNATURE) ? 'png' : 'other';
  } catch {
    return 'other'; // a folder, for one
  } finally {
    await file.close();
  }
}
