import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';

const FILES = { regular: '400Regular/SourceSans3_400Regular.ttf', strong: '600SemiBold/SourceSans3_600SemiBold.ttf' };

/**
 * Where the files of the type face lie, whole and not cut by script: a page embeds what it uses of them.
 * @throws AppError `runtime-missing` when one is not there.
 */
export function fontFiles(): Readonly<Record<keyof typeof FILES, string>> {
  const { resolve } = createRequire(import.meta.url);
  const found = (file: string): string => {
    try {
      const path = resolve(`@expo-google-fonts/source-sans-3/${file}`);
      if (existsSync(path)) return path;
    } catch {
      // Told below.
    }
    throw new AppError(
      'runtime-missing',
      say`The type face of the lesson page is not complete. Install Baybook again.`,
      {
        detail: { file },
      },
    );
  };
  return { regular: found(FILES.regular), strong: found(FILES.strong) };
}
