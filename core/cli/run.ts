import { isSystemError, systemTrouble } from '../files/file-trouble.ts';
import { AppError } from '../model/errors.ts';
import { helpOf, parseCommandArguments, type Command, type CommandContext } from './command.ts';
import { COMMANDS } from './commands/list.ts';

const overview = (): string =>
  [
    'baybook: measured lessons from golf swing clips',
    '',
    ...COMMANDS.map(
      (command) => `  baybook ${`${command.name} ${command.operands.shown}`.padEnd(36)} ${command.summary}`,
    ),
    '',
    'baybook COMMAND --help tells more of each. Exit code: 0 done, 2 not done (one sentence on standard error says why;',
    'with --json also {"error": {"code", "message"}} on standard output).',
  ].join('\n');

/** The sentence and code for whatever was thrown. */
function explain(thrown: unknown): { code: string; message: string } {
  const cause = systemTrouble(thrown);
  if (cause instanceof AppError) return { code: cause.code, message: cause.message };
  if (isSystemError(cause)) {
    const sentence = 'This computer refused something that Baybook needs. Close other programs and try again.';
    return { code: 'internal', message: sentence };
  }
  const facts = cause instanceof Error ? cause.message.split('\n')[0] : String(cause);
  return { code: 'internal', message: `Baybook could not go on: ${facts}. Nothing that was saved is lost.` };
}

/**
 * Runs one command line (without "baybook" itself).
 * @returns the exit code: 0 done, 2 not done.
 */
export async function runCommandLine(argv: readonly string[], context: CommandContext): Promise<0 | 2> {
  const [name, ...rest] = argv;
  try {
    if (name === undefined || name === '--help' || name === 'help') {
      context.out(overview());
      return 0;
    }
    const command: Command | undefined = COMMANDS.find((known) => known.name === name);
    if (command === undefined)
      throw new AppError(
        'bad-arguments',
        `There is no command "${name}". Known: ${COMMANDS.map((c) => c.name).join(', ')}.`,
      );
    if (rest.includes('--help')) {
      context.out(helpOf(command));
      return 0;
    }
    await command.run(parseCommandArguments(command, rest), context);
    return 0;
  } catch (cause) {
    const error = explain(cause);
    if (rest.includes('--json')) context.out(JSON.stringify({ error }));
    context.say(error.message);
    return 2;
  }
}
