import type { Command } from '../command.ts';
import { checkCommand } from './check.ts';
import { compareCommand } from './compare.ts';
import { demoCommand } from './demo.ts';
import { framesCommand } from './frames.ts';
import { mailCommand } from './mail.ts';
import { numbersCommand } from './numbers.ts';
import { goalsCommand } from './goals.ts';
import { pageCommand } from './page.ts';
import { proposeCommand } from './propose.ts';
import { swingsCommand } from './swings.ts';
import { readCommand } from './read.ts';
import { sheetCommand } from './sheet.ts';
import { stillCommand } from './still.ts';
import { talkCommand } from './talk.ts';

/** Every command, in the order in which the overview lists them. */
export const COMMANDS: readonly Command[] = [
  framesCommand,
  stillCommand,
  proposeCommand,
  swingsCommand,
  readCommand,
  compareCommand,
  numbersCommand,
  sheetCommand,
  talkCommand,
  pageCommand,
  mailCommand,
  goalsCommand,
  demoCommand,
  checkCommand,
];
