import { basename } from 'node:path';
import { AppError } from '../model/errors.ts';
import { bareSwingOf, type MarkedSwing } from '../model/swing.ts';
import { readSwingFile } from '../swing-file/read-swing-file.ts';
import type { ParsedArguments } from './command.ts';

/** Other swings of the two lessons, whose means are compared. */
export const BESIDES_OPTIONS = {
  'then-also': { type: 'string', value: 'FILES', help: 'other swings of the lesson of then, with commas between them' },
  'now-also': { type: 'string', value: 'FILES', help: 'other swings of the lesson of now' },
} as const;

/**
 * The swing with the others of its lesson.
 * @throws AppError `bad-arguments` for a swing of another day, club or handedness, and what reading a swing file may throw.
 */
export async function withBesides(
  swing: MarkedSwing,
  args: ParsedArguments,
  option: keyof typeof BESIDES_OPTIONS,
): Promise<MarkedSwing> {
  const paths = (args.text(option) ?? '').split(',').map((path) => path.trim());
  const named = paths.filter((path) => path !== '');
  if (named.length === 0) return swing;
  const besides = [];
  for (const path of named) {
    const other = bareSwingOf((await readSwingFile(path)).swing);
    const isOfLesson = (['date', 'club', 'handedness'] as const).every((fact) => other[fact] === swing[fact]);
    if (!isOfLesson)
      throw new AppError(
        'bad-arguments',
        `--${option}: ${path} is of another day, club or handedness than its lesson.`,
      );
    besides.push({ label: basename(path, '.json'), clips: other.clips });
  }
  return { ...swing, besides };
}
