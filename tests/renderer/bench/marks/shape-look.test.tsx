// @vitest-environment jsdom
import { beginEmpty, show } from '../../shown-view.tsx';
import { screen } from '@testing-library/react';
import { expect, test } from 'vitest';
import type { ShapeLook } from '../../../../core/model/mark.ts';
import { ShapeLookChoice } from '../../../../renderer/bench/marks/shape-look.tsx';

beginEmpty();

function choice(look: ShapeLook, hasNumber = true) {
  const chosen: ShapeLook[] = [];
  const { hand } = show(<ShapeLookChoice look={look} hasNumber={hasNumber} onChange={(next) => chosen.push(next)} />);
  return { hand, chosen };
}

test('a colour, a thickness and the number beside a shape are chosen each by itself; what is usual is left out', async () => {
  const { hand, chosen } = choice({ colour: 'lime' });
  expect(screen.getByRole('button', { name: 'lime' }).getAttribute('aria-pressed')).toBe('true');
  expect(screen.getByRole('button', { name: 'middle line' }).getAttribute('aria-pressed')).toBe('true');
  await hand.click(screen.getByRole('button', { name: 'pink' }));
  await hand.click(screen.getByRole('button', { name: 'thick line' }));
  await hand.click(screen.getByRole('button', { name: /^Usual colour/ }));
  await hand.click(screen.getByLabelText('Number beside it'));
  expect(chosen).toEqual([
    { colour: 'pink' },
    { colour: 'lime', thickness: 'thick' },
    {},
    { colour: 'lime', unlabelled: true },
  ]);
});

test('what has no number is not asked about it', () => {
  choice({}, false);
  expect(screen.queryByLabelText('Number beside it')).toBeNull();
});
