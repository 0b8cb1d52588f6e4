import type { Pattern } from '../model/pattern.ts';
import { SHIPPED_PATTERN } from '../parse/shipped-pattern.ts';
import { readPatternFile } from '../pattern-file/read-pattern-file.ts';
import type { OptionSpec, ParsedArguments } from './command.ts';

/** `--pattern FILE`, for commands that work without a book. */
export const PATTERN_OPTION: OptionSpec = {
  type: 'string',
  value: 'FILE',
  help: 'a pattern file with your tolerances; the shipped one unless told',
};

export async function patternOf(args: ParsedArguments): Promise<Pattern> {
  const path = args.text('pattern');
  return path === undefined ? SHIPPED_PATTERN : readPatternFile(path);
}
