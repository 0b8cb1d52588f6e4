// @vitest-environment jsdom
import { beginEmpty, show } from '../shown-view.tsx';
import { screen } from '@testing-library/react';
import { describe, expect, test, vi } from 'vitest';
import { app, setApp } from '../../../renderer/shell/state/app-state.ts';
import { RateDialog } from '../../../renderer/swing/rate-dialog.tsx';
import { clipOf, swingOf } from '../sample-swing.ts';

beginEmpty();

const USE = { name: 'Use this rate' };
const NO_RATE = 'Type a number above 0 and up to 10,000, such as 240.';

function open(clip = clipOf('x')) {
  setApp({ swing: swingOf('a', [clip]), route: { at: 'sheet' } });
  const onClose = vi.fn();
  return { ...show(<RateDialog clip={clip} onClose={onClose} />), onClose };
}
const rateOfClip = () => app.get().swing?.clips[0]?.captureRate ?? null;

describe('the rate that a clip was filmed at', () => {
  test.each(['0', 'abc', '-30', '10001'])('is not %s, and the field says why', async (text) => {
    const { hand } = open();
    await hand.type(screen.getByLabelText('Frames a second'), text);
    expect(screen.getByRole('button', USE)).toHaveProperty('disabled', true);
    expect(screen.getByText(NO_RATE)).toBeTruthy();
    expect(screen.getByLabelText('Frames a second').getAttribute('aria-invalid')).toBe('true');
  });

  test('is not asked for in red before anything is typed', () => {
    open();
    expect(screen.queryByText(NO_RATE)).toBeNull();
    expect(screen.getByRole('button', USE)).toHaveProperty('disabled', true);
  });

  test('is taken as typed, with a comma or a point', async () => {
    const { hand, onClose } = open();
    await hand.type(screen.getByLabelText('Frames a second'), '239,76');
    await hand.click(screen.getByRole('button', USE));
    expect(onClose).toHaveBeenCalledOnce();
    expect(rateOfClip()).toEqual({ framesPerSecond: { num: 239_760, den: 1000 }, confirmed: true });
  });

  test('of the file is only confirmed, exact as it is', async () => {
    const told = { framesPerSecond: { num: 30_000, den: 1001 }, confirmed: false };
    const { hand } = open({ ...clipOf('x'), captureRate: told });
    await hand.click(screen.getByRole('button', { name: 'That is right' }));
    expect(rateOfClip()).toEqual({ ...told, confirmed: true });
  });
});
