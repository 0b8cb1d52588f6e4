import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { GlobalFonts } from '@napi-rs/canvas';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import { FONT_FAMILY } from '../painting/styles.ts';

/** The scripts a student's name may be written in; the face is cut into one file for each. */
const SUBSETS = ['latin', 'latin-ext', 'vietnamese', 'greek', 'greek-ext', 'cyrillic', 'cyrillic-ext'] as const;
const WEIGHTS = [400, 600] as const;
/** The same face whole, in both weights; what the cut files have comes from them. */
const WHOLE = ['400Regular/SourceSans3_400Regular.ttf', '600SemiBold/SourceSans3_600SemiBold.ttf'] as const;

let registered = false;

/**
 * Makes the type face of all stills known to the canvas, once a process. Without it the canvas would set texts in whatever
 * face the machine has, with other widths, so a missing file stops the work.
 * @throws AppError `runtime-missing` when a file of the face is missing or damaged.
 */
export function registerFonts(): void {
  if (registered) return;
  for (const weight of WEIGHTS)
    for (const subset of SUBSETS)
      registerFile(`@fontsource/source-sans-3/files/source-sans-3-${subset}-${weight}-normal.woff2`);
  // Arrows and signs are in none of these, and would come from whatever face the machine has, in its widths.
  for (const name of WHOLE) registerFile(`@expo-google-fonts/source-sans-3/${name}`);
  registered = true;
}

function registerFile(name: string): void {
  let cause: unknown;
  try {
    const path = createRequire(import.meta.url).resolve(name);
    if (GlobalFonts.register(readFileSync(path), FONT_FAMILY) !== null) return;
  } catch (error) {
    cause = error;
  }
  throw new AppError('runtime-missing', say`The type face ${FONT_FAMILY} is not complete. Install Baybook again.`, {
    cause,
    detail: { file: name },
  });
}
