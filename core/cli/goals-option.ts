import type { Goals } from '../model/goals.ts';
import { SHIPPED_GOALS } from '../parse/shipped-goals.ts';
import { readGoalsFile } from '../goals-file/read-goals-file.ts';
import type { OptionSpec, ParsedArguments } from './command.ts';

/** `--goals FILE`, for commands that work without a book. */
export const GOALS_OPTION: OptionSpec = {
  type: 'string',
  value: 'FILE',
  help: 'a goals file with your tolerances; the shipped goals unless told',
};

export async function goalsOf(args: ParsedArguments): Promise<Goals> {
  const path = args.text('goals');
  return path === undefined ? SHIPPED_GOALS : readGoalsFile(path);
}
