import { findFile } from '../files/find-file.ts';
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
  try {
    const found = await findFile(path, PNG_SIGNATURE.length);
    if (found === null) return 'nothing';
    if (found.bytes === 0) return 'empty';
    return PNG_SIGNATURE.equals(found.head) ? 'png' : 'other';
  } catch {
    return 'other'; // a folder, a pipe, one that may not be read
  }
}
