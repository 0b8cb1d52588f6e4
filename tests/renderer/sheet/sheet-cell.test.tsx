// @vitest-environment jsdom
import { beginEmpty, program, show } from '../shown-view.tsx';
import { screen } from '@testing-library/react';
import { describe, expect, test } from 'vitest';
import { EMPTY_GOALS } from '../../../core/measure/goals/goals.ts';
import { markedSwingOf } from '../../../core/model/swing.ts';
import { reportOf } from '../../../core/report/lesson-report.ts';
import { ReadingList } from '../../../renderer/sheet/reading-list.tsx';
import { SheetCell } from '../../../renderer/sheet/sheet-cell.tsx';
import { app, setApp } from '../../../renderer/shell/state/app-state.ts';
import { copyStillAtHand } from '../../../renderer/sheet/state/copy-actions.ts';
import { controlProgram, WRITTEN } from '../controlled-program.ts';
import { clipOf, indexOf, swingOf } from '../sample-swing.ts';

beginEmpty();

function cell(time: 'then' | 'now', clips: Parameters<typeof swingOf>[1]) {
  const swing = swingOf('a', clips);
  setApp({ swing, indexes: { x: indexOf(4) }, route: { at: 'sheet' } });
  const at = { checkpoint: 'top', view: 'face-on', time, compared: false, withReadings: true } as const;
  const report = reportOf({ now: markedSwingOf(swing), then: null, goals: EMPTY_GOALS });
  return show(<SheetCell {...at} swing={swing} report={report} />);
}

/** A program that does what it is asked; answers what that was. */
function answered() {
  const asked: (readonly [name: string, input: unknown])[] = [];
  controlProgram((name, input) => {
    asked.push([name, input]);
    return Promise.resolve({ ok: true, value: null });
  });
  return asked;
}

describe('a cell of the sheet', () => {
  test('without a clip of its view says so', () => {
    cell('now', []);
    expect(screen.getByText('No clip of this view.')).toBeTruthy();
  });

  test('whose frame is not named leads to where it is found', async () => {
    const { hand } = cell('now', [clipOf('x')]);
    await hand.click(screen.getByRole('button', { name: 'Find Top, Face on' }));
    expect([app.get().route, app.get().bench?.looksFor]).toEqual([{ at: 'bench' }, 'top']);
  });

  test('of the earlier swing is only looked at', () => {
    cell('then', [clipOf('x')]);
    expect(screen.getByText('Not named yet.')).toBeTruthy();
    expect(screen.queryByRole('button')).toBeNull();
  });

  test('goes to the frame beside, and no further than the first', async () => {
    const { hand } = cell('now', [{ ...clipOf('x'), checkpoints: { top: { index: 0, pts: 0, ticks: 1 } } }]);
    expect(screen.getByRole('button', { name: 'Top: one frame earlier' })).toHaveProperty('disabled', true);
    await hand.click(screen.getByRole('button', { name: 'Top: one frame later' }));
    expect(app.get().swing?.clips[0]?.checkpoints.top?.index).toBe(1);
    // Whatever comes after waits until it is written.
    await program.next('edit/write').answer(WRITTEN);
  });
});

describe('the still of a cell', () => {
  const named = { ...clipOf('x'), checkpoints: { top: { index: 1, pts: 1, ticks: 1 } } };

  test('is copied by its button, by its key, and as text; with then only where then has that frame too', async () => {
    const { hand } = cell('now', [named]);
    const asked = answered();
    const still = { swingId: 'a', thenSwingId: null, view: 'face-on', checkpoint: 'top' };
    await hand.click(screen.getByRole('button', { name: /^Copy still: Top, Face on/ }));
    await hand.click(screen.getByRole('button', { name: 'Copy text: Top, Face on' }));
    screen.getByRole('button', { name: /^Open Top/ }).focus();
    await copyStillAtHand();
    expect(asked).toEqual([
      ['stills/copy', { jobId: expect.any(String) as string, ...still }],
      ['stills/copy-text', still],
      ['stills/copy', { jobId: expect.any(String) as string, ...still }],
    ]);
    setApp({ then: swingOf('b', [named]) });
    await copyStillAtHand();
    expect(asked.at(-1)?.[1]).toMatchObject({ thenSwingId: 'b' });
    setApp({ then: swingOf('b', [clipOf('x')]) });
    await copyStillAtHand();
    expect(asked.at(-1)?.[1]).toMatchObject({ thenSwingId: null });
  });

  test('that nobody chose is not copied, and it is said what to do', async () => {
    cell('now', [named]);
    const asked = answered();
    await copyStillAtHand();
    expect(asked).toEqual([]);
    expect(app.get().messages.map(({ text }) => text)).toEqual([expect.stringMatching(/^No named frame is chosen/)]);
  });
});

test('the readings of a cell say what to do where there is none', () => {
  const none = { readings: [], missing: [], idle: [], isAsked: false };
  show(<ReadingList side={none} />);
  expect(screen.getByText('No reading yet. Open the still and place points.')).toBeTruthy();
});
