import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { drawn } from '../support/drawn.ts';
import { onSmallDiskMeanwhile } from '../support/small-disk.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import {
  GROUPS,
  PRESSES,
  endOf,
  loadMachine,
  lostPresses,
  makeBookWithBall,
  pressAndEnd,
  readBall,
  takeBall,
} from './closing-session.ts';
import type { End } from './closing-session.ts';
import { launchBaybook } from './launch.ts';

/** However the window is closed, and however busy the machine is: what was pressed before is in the book. */

const ENDS = drawn<End>(['close', 'quit', 'SIGTERM', 'close', 'SIGINT'], 0, 2);

/** What the coach is asked with a round of presses that could not be written. */
const QUESTION = {
  message: `${String(2 * GROUPS)} changes are not saved yet.`,
  detail: expect.stringMatching(/^Robin Marsh, 2026-05-12, Swing 1: 16 changes\n\nThe disk is full: /),
  buttons: ['Try again', 'Save somewhere else', 'Close without saving', 'Keep Baybook open'],
};

describe('closing while changes are being saved', () => {
  it(`by ${ENDS.join(', ')} loses none of ${String(PRESSES * ENDS.length)}, on a busy machine`, async () => {
    const [bookFolder, userData] = [join(temporaryFolder(), 'book'), temporaryFolder()];
    await makeBookWithBall(bookFolder);
    const lost: number[] = [];
    const codes: number[] = [];
    for (const end of ENDS) {
      const baybook = await launchBaybook({ bookFolder, userData });
      onTestFinished(() => baybook.close());
      await takeBall(baybook);
      const before = readBall(bookFolder);
      const stopLoad = loadMachine();
      const ended = endOf(baybook.app);
      await pressAndEnd(baybook.app, end).catch(() => undefined);
      codes.push(await ended);
      stopLoad();
      await baybook.close();
      lost.push(lostPresses(before, readBall(bookFolder)));
    }
    expect({ lost, codes }).toEqual({ lost: ENDS.map(() => 0), codes: ENDS.map(() => 0) });
  });

  const kept = { code: 0, kept: 1, lostBefore: true, lost: 0, left: [] };
  /** What comes of each way to go on; what is given up is given up by somebody. */
  const ways = drawn<readonly [name: string, outcome: unknown]>(
    [
      ['elsewhere', kept],
      ['elsewhere, by log-out', kept],
      ['killed', { told: 'Nothing was kept there.', lost: 0, left: [] }],
      ['stays open', { code: 0, asked: [QUESTION], lost: 0 }],
      ['tries again', { code: 0, buttons: QUESTION.buttons, lost: 0, left: [] }],
      ['given up', { code: 0, unchanged: true }],
      ['Ctrl+C twice', { code: 0, said: true, unchanged: true }],
    ],
    0,
    2,
  );
  const names = ways.map(([name]) => name);

  it(`on a full disk asks, and loses none that nobody gave up: ${names.join('; ')}`, async () => {
    const script = join(import.meta.dirname, 'children', 'close-on-full-disk.ts');
    const folder = temporaryFolder();
    const told: unknown = JSON.parse(
      await onSmallDiskMeanwhile(script, join(folder, 'disk'), 12, join(folder, 'elsewhere'), ...names),
    );
    expect(told).toEqual(Object.fromEntries(ways));
  });
});
