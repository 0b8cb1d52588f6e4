import { AppError } from '../../model/errors.ts';
import { check, describeFacts, isMissing } from '../check.ts';
import type { Command } from '../command.ts';

/** `baybook check`: what the program stands on here. */
export const checkCommand: Command = {
  name: 'check',
  summary: 'Say which ffmpeg, Node, Electron and SQLite were found, and their versions.',
  operands: { shown: '', least: 0, most: 0 },
  options: { json: { type: 'boolean', help: 'print JSON' } },
  details: ['Nothing is fetched or installed. Without ffmpeg or SQLite nothing works, so the exit code is 2 then.'],
  async run(args, { out }) {
    const facts = await check();
    const missing = [facts.ffmpeg, facts.sqlite].find(isMissing);
    if (!args.has('json')) for (const line of describeFacts(facts)) out(line);
    if (missing !== undefined) throw new AppError('runtime-missing', missing.missing);
    if (args.has('json')) out(JSON.stringify(facts));
  },
};
