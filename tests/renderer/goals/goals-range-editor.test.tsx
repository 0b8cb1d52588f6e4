// @vitest-environment jsdom
import { beginEmpty, show } from '../shown-view.tsx';
import { screen } from '@testing-library/react';
import { useState } from 'react';
import { describe, expect, test } from 'vitest';
import type { WantedRange } from '../../../core/model/goals.ts';
import { RangeEditor } from '../../../renderer/goals/goals-range-editor.tsx';

beginEmpty();

const RANGE: WantedRange = {
  ...{ reading: 'back-incline', aspect: 'value', views: [], checkpoints: [], clubs: [], from: 20, to: 30 },
  ...{ unit: 'deg', words: '', basis: '', miss: { low: '', high: '' } },
};

function open() {
  let kept = RANGE;
  function Page() {
    const [range, setRange] = useState(RANGE);
    kept = range;
    return <RangeEditor range={range} onChange={(part) => setRange({ ...range, ...part })} />;
  }
  return { ...show(<Page />), kept: () => kept };
}

describe('a limit that is typed', () => {
  test('is kept with every key where it is sound', async () => {
    const { hand, kept } = open();
    await hand.clear(screen.getByLabelText('From'));
    await hand.type(screen.getByLabelText('From'), '−2,5');
    expect(kept().from).toBe(-2.5);
  });

  test.each([
    ['From', 'much', 'Write a number, like 25 or −2.5, or nothing for no limit.'],
    ['From', '31', 'This lies above "to", 30. Raise that first.'],
    ['To', '19', 'This lies below "from", 20. Lower that first.'],
  ])('%s: %s says why it is none, and the limit of before stays', async (field, text, why) => {
    const { hand, kept } = open();
    await hand.clear(screen.getByLabelText(field));
    await hand.type(screen.getByLabelText(field), text);
    expect(screen.getByText(why)).toBeTruthy();
    expect(screen.getByLabelText(field).getAttribute('aria-invalid')).toBe('true');
    expect([kept().from, kept().to]).toEqual([20, 30]);
  });

  test('and taken out again is no limit', async () => {
    const { hand, kept } = open();
    await hand.clear(screen.getByLabelText('To'));
    expect([kept().from, kept().to]).toEqual([20, null]);
  });
});

test('a club is named once', async () => {
  const { hand, kept } = open();
  await hand.type(screen.getByLabelText('Clubs (none: every club)'), 'driver, Driver');
  expect(screen.getByText('Name each club once.')).toBeTruthy();
  expect(kept().clubs).toEqual([]);
});
