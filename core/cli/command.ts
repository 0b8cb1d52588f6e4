import { parseArgs } from 'node:util';
import { AppError } from '../model/errors.ts';

/** Where a command writes, and how it is stopped. Handed in, so that tests run commands in the same process. */
export interface CommandContext {
  /** Results. One call a line, without the line end. */
  readonly out: (line: string) => void;
  /** Progress and remarks for a person; never part of a result. */
  readonly say: (line: string) => void;
  /** Aborts on Ctrl+C. */
  readonly signal: AbortSignal;
}

export interface OptionSpec {
  readonly type: 'string' | 'boolean';
  /** What stands after the option in the help, e.g. N; only for strings. */
  readonly value?: string;
  readonly help: string;
}

export interface ParsedArguments {
  readonly operands: readonly string[];
  /** The text given for a string option, or undefined. */
  text(option: string): string | undefined;
  /** Whether a boolean option was given. */
  has(option: string): boolean;
}

export interface Command {
  readonly name: string;
  /** One line for the list of commands. */
  readonly summary: string;
  /** Operands as shown in the help, e.g. "CLIP"; the least and most that may be given. */
  readonly operands: { readonly shown: string; readonly least: number; readonly most: number };
  readonly options: Readonly<Record<string, OptionSpec>>;
  /** Further help: what comes out, with units. */
  readonly details: readonly string[];
  run(args: ParsedArguments, context: CommandContext): Promise<void>;
}

/** Reads a command's arguments. @throws AppError bad-arguments with a sentence that names the option or operand. */
export function parseCommandArguments(command: Command, argv: readonly string[]): ParsedArguments {
  const seeHelp = `See: baybook ${command.name} --help`;
  let parsed;
  try {
    parsed = parseArgs({
      args: [...argv],
      allowPositionals: true,
      strict: true,
      options: Object.fromEntries(Object.entries(command.options).map(([name, { type }]) => [name, { type }])),
    });
  } catch (cause) {
    const first = cause instanceof Error ? (cause.message.split('. ')[0] ?? cause.message) : String(cause);
    throw new AppError('bad-arguments', `${first.replace(/\.$/, '')}. ${seeHelp}`, { cause });
  }
  const { positionals, values } = parsed;
  if (positionals.length < command.operands.least)
    throw new AppError(
      'bad-arguments',
      `Something is missing: baybook ${command.name} ${command.operands.shown}. ${seeHelp}`,
    );
  const tooMany = positionals[command.operands.most];
  if (tooMany !== undefined) throw new AppError('bad-arguments', `"${tooMany}" is one argument too many. ${seeHelp}`);
  return {
    operands: positionals,
    text: (option) => {
      const value = values[option];
      return typeof value === 'string' ? value : undefined;
    },
    has: (option) => values[option] === true,
  };
}

/** The help of one command. */
export function helpOf(command: Command): string {
  const options = Object.entries<OptionSpec>({
    ...command.options,
    help: { type: 'boolean', help: 'show this' },
  }).map(([name, spec]) => ({
    left: `  --${name}${spec.value === undefined ? '' : ` ${spec.value}`}`,
    help: spec.help,
  }));
  const wide = Math.max(...options.map(({ left }) => left.length)) + 2;
  return [
    `baybook ${command.name} ${command.operands.shown}`.trimEnd(),
    '',
    command.summary,
    '',
    ...options.map(({ left, help }) => left.padEnd(wide) + help),
    ...(command.details.length > 0 ? ['', ...command.details] : []),
  ].join('\n');
}
