// @vitest-environment jsdom
import { screen } from '@testing-library/react';
import { expect, test } from 'vitest';
import { powerTable, VERDICT_WORTH } from '../../../core/report/verdict-worth.ts';
import { VerdictWorthFold } from '../../../renderer/sheet/verdict-worth.tsx';
import { show } from '../shown-view.tsx';

test('what a verdict is worth is folded, and opens to both tables', async () => {
  const { hand } = show(<VerdictWorthFold />);
  expect(screen.queryByRole('table')).toBeNull();
  await hand.click(screen.getByRole('button', { name: /^For the technically minded/ }));
  expect(screen.getAllByRole('table')).toHaveLength(2);
  const [first] = powerTable(VERDICT_WORTH).rows;
  expect(screen.getByRole('rowheader', { name: first?.[0] ?? '' })).toBeTruthy();
});
