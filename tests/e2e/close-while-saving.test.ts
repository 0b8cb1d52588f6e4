import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
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

const ENDS: readonly End[] = ['close', 'quit', 'SIGTERM', 'SIGINT', 'close'];

/** What the coach is asked with a round of presses that could not be written. */
const QUESTION = {
  message: `${String(2 * GROUPS)} changes are not saved yet.`,
  detail: expect.stringMatching(/^Robin Marsh, 2026-05-12, Swing 1: 16 changes\n\nThe disk is full: /),
  buttons: ['Try again', 'Save somewhere else', 'Close without saving', 'Keep Baybook open'],
};

describe('closing while changes are being saved', () => {
  it('loses none of 200, on a busy machine', async () => {
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
    expect(PRESSES * ENDS.length).toBe(200);
    expect({ lost, codes }).toEqual({ lost: ENDS.map(() => 0), codes: ENDS.map(() => 0) });
  });

  it('on a full disk asks, and loses none of 200 in five ways to go on; what is given up is given up by somebody', async () => {
    const script = join(import.meta.dirname, 'children', 'close-on-full-disk.ts');
    const folder = temporaryFolder();
    const told: unknown = JSON.parse(
      await onSmallDiskMeanwhile(script, join(folder, 'disk'), 12, join(folder, 'elsewhere')),
    );
    const elsewhere = { code: 0, kept: 1, lostBefore: true, lost: 0, left: [] };
    expect(told).toEqual({
      elsewhere,
      'elsewhere, by log-out': elsewhere,
      killed: { told: 'Nothing was kept there.', lost: 0, left: [] },
      'stays open': { code: 0, asked: [QUESTION], lost: 0 },
      'tries again': { code: 0, buttons: QUESTION.buttons, lost: 0, left: [] },
      'given up': { code: 0, unchanged: true },
      'Ctrl+C twice': { code: 0, said: true, unchanged: true },
    });
  });
});
