// @vitest-environment jsdom
import { beginEmpty, show } from '../../shown-view.tsx';
import { act, screen } from '@testing-library/react';
import { expect, test } from 'vitest';
import { Hint } from '../../../../renderer/bench/surface/hint.tsx';

beginEmpty();

test('the hint gives way to the hand, to the other end of the picture and back', () => {
  show(
    <div data-testid="surface">
      <Hint>Place the ball.</Hint>
    </div>,
  );
  const hint = screen.getByText('Place the ball.');
  // Without a layout: it lies at the top until it is told to lie low.
  hint.getBoundingClientRect = () =>
    DOMRect.fromRect({ x: 10, y: hint.dataset['low'] === 'true' ? 500 : 10, width: 300, height: 30 });
  const move = (x: number, y: number): void => {
    act(() => {
      const event = new MouseEvent('pointermove', { bubbles: true, clientX: x, clientY: y });
      screen.getByTestId('surface').dispatchEvent(event);
    });
  };
  move(400, 20);
  move(100, 200);
  expect(hint.dataset['low']).toBe('false');
  move(100, 60);
  expect(hint.dataset['low']).toBe('true');
  move(100, 20);
  expect(hint.dataset['low']).toBe('true');
  move(100, 490);
  expect(hint.dataset['low']).toBe('false');
});
