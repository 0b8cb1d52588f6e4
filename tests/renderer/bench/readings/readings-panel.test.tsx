// @vitest-environment jsdom
import { beginEmpty, show } from '../../shown-view.tsx';
import { screen } from '@testing-library/react';
import { describe, expect, test } from 'vitest';
import type { BookClip } from '../../../../core/model/book.ts';
import { IMPLAUSIBLE_QUESTION } from '../../../../core/measure/doubts/plausible.ts';
import { EMPTY_GOALS } from '../../../../core/measure/goals/goals.ts';
import { markedSwingOf } from '../../../../core/model/swing.ts';
import { reportOf } from '../../../../core/report/lesson-report.ts';
import { ReadingsPanel } from '../../../../renderer/bench/readings/readings-panel.tsx';
import { setApp } from '../../../../renderer/shell/state/app-state.ts';
import { clipOf, indexOf, swingOf } from '../../sample-swing.ts';

beginEmpty();

const SIZE = { width: 1920, height: 1080 };
const ADDRESS = { index: 1, pts: 1, ticks: 1 };

function panel(clips: readonly BookClip[]) {
  const [clip] = clips;
  if (clip === undefined) throw new Error('a clip is needed');
  const swing = swingOf('a', clips);
  setApp({ swing, indexes: { x: indexOf(4), y: indexOf(4) }, route: { at: 'bench' } });
  const report = reportOf({ now: markedSwingOf(swing), then: null, goals: EMPTY_GOALS });
  return show(<ReadingsPanel swing={swing} clip={clip} report={report} at={1} here={null} />);
}

/** Marked at address down the line: the back from the tailbone up to the neck. */
function backTo(neck: { readonly x: number; readonly y: number }): BookClip {
  const points = {
    tailbone: { x: 900, y: 700, hidden: false },
    'neck-base': { ...neck, hidden: false },
  };
  const frame = { index: 1, pts: 1 };
  const marks = [{ frame, points, shapes: [] }];
  return { ...clipOf('x'), ...SIZE, view: 'down-the-line', checkpoints: { address: ADDRESS }, marks };
}

describe('the readings of a clip', () => {
  test('say where to begin while no frame of it has a name', () => {
    panel([clipOf('x')]);
    expect(screen.getByText(/^No frame of this clip has a name yet\./)).toBeTruthy();
  });

  test('that can be are shown without a question', () => {
    panel([backTo({ x: 720, y: 400 })]);
    expect(screen.getByRole('button', { name: /^Back incline/i })).toBeTruthy();
    expect(screen.queryByText(IMPLAUSIBLE_QUESTION)).toBeNull();
  });

  test('that cannot be are asked about', () => {
    panel([backTo({ x: 900, y: 1000 })]);
    expect(screen.getAllByText(IMPLAUSIBLE_QUESTION).length).toBeGreaterThan(0);
  });

  test('of the other view are folded, with how many they are', async () => {
    const { hand } = panel([clipOf('y'), backTo({ x: 720, y: 400 })]);
    const fold = screen.getByRole('button', { name: /^Down the line/ });
    expect([fold.getAttribute('aria-expanded'), screen.queryByRole('button', { name: /^Back incline/i })]).toEqual([
      'false',
      null,
    ]);
    await hand.click(fold);
    expect(screen.getByRole('button', { name: /^Back incline/i })).toBeTruthy();
  });
});
