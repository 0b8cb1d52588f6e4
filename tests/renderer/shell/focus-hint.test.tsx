// @vitest-environment jsdom
import { beginEmpty, show } from '../shown-view.tsx';
import { screen, waitFor } from '@testing-library/react';
import { describe, expect, test } from 'vitest';
import { Button } from '../../../renderer/controls/button.tsx';
import { FocusHint } from '../../../renderer/shell/focus-hint.tsx';

beginEmpty();

function twoButtons() {
  return show(
    <>
      <Button label="One frame on. Key: right arrow">›</Button>
      <Button>Done</Button>
      <FocusHint />
    </>,
  );
}

const words = (): Element | null => screen.queryByText('One frame on. Key: right arrow');

describe('what resting on a control shows', () => {
  test('shows to whoever goes there by keys, and goes with the next key', async () => {
    const { hand } = twoButtons();
    await hand.tab();
    expect(words()).toBeNull();
    await waitFor(() => expect(words()).not.toBeNull());
    // Readers of the screen have it from the control.
    expect(words()?.getAttribute('aria-hidden')).toBe('true');
    await hand.tab();
    expect(words()).toBeNull();
  });

  test('of a control that says all by itself is nothing', async () => {
    const { hand } = twoButtons();
    await hand.tab();
    await hand.tab();
    await new Promise((resolve) => setTimeout(resolve, 600));
    expect(document.querySelector('[data-part]')).toBeNull();
  });
});
