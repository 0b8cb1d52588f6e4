// @vitest-environment jsdom
import { beginEmpty, show } from '../shown-view.tsx';
import { screen } from '@testing-library/react';
import { describe, expect, test } from 'vitest';
import { EMPTY_GOALS } from '../../../core/measure/goals/goals.ts';
import { markedSwingOf } from '../../../core/model/swing.ts';
import { reportOf } from '../../../core/report/lesson-report.ts';
import { ReadingList } from '../../../renderer/sheet/reading-list.tsx';
import { SheetCell } from '../../../renderer/sheet/sheet-cell.tsx';
import { app, setApp } from '../../../renderer/shell/state/app-state.ts';
import { clipOf, indexOf, swingOf } from '../sample-swing.ts';

beginEmpty();

function cell(time: 'then' | 'now', clips: Parameters<typeof swingOf>[1]) {
  const swing = swingOf('a', clips);
  setApp({ swing, indexes: { x: indexOf(4) }, route: { at: 'sheet' } });
  const at = { checkpoint: 'top', view: 'face-on', time, compared: false } as const;
  const report = reportOf({ now: markedSwingOf(swing), then: null, goals: EMPTY_GOALS });
  return show(<SheetCell {...at} swing={swing} report={report} />);
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
  });
});

test('the readings of a cell say what to do where there is none', () => {
  const none = { readings: [], missing: [], idle: [], isAsked: false };
  show(<ReadingList side={none} withDifference={false} />);
  expect(screen.getByText('No reading yet. Open the still and place points.')).toBeTruthy();
});
