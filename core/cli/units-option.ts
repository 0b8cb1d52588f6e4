import { UNIT_SYSTEMS } from '../model/settings.ts';
import { AppError } from '../model/errors.ts';
import { showUnits } from '../measure/words/shown-units.ts';
import type { OptionSpec, ParsedArguments } from './command.ts';

/** `--units SYSTEM`, for commands that write numbers for people. */
export const UNITS_OPTION: OptionSpec = {
  type: 'string',
  value: 'SYSTEM',
  help: 'metric (cm, m, m/s), as it is unless told, or imperial (in, yd, mph); JSON stays metric',
};

/** Puts the units to use that are asked for. @throws AppError `bad-arguments`. */
export function showUnitsOf(args: ParsedArguments): void {
  const asked = args.text('units') ?? 'metric';
  const found = UNIT_SYSTEMS.find((system) => system === asked);
  if (found === undefined)
    throw new AppError('bad-arguments', `"${asked}" is not metric or imperial. Leave --units out for metric.`);
  showUnits(found);
}
