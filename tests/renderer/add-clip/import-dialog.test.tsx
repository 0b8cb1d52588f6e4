// @vitest-environment jsdom
import { beginEmpty, program, show } from '../shown-view.tsx';
import { act, screen } from '@testing-library/react';
import { describe, expect, test, vi } from 'vitest';
import { AppError } from '../../../core/model/errors.ts';
import type { ClipSummary } from '../../../core/time/clip-summary.ts';
import { ImportDialog } from '../../../renderer/add-clip/import-dialog.tsx';
import { setApp } from '../../../renderer/shell/state/app-state.ts';
import { clipOf, swingOf } from '../sample-swing.ts';

beginEmpty();

const PATH = '/clips/of/may/swing.mp4';
const SUMMARY: ClipSummary = {
  ...{ frameCount: 3, seconds: 0.1, width: 1920, height: 1080, bytes: 1000, long: false, suggestedSpan: null },
  ...{ times: [0, 0.03, 0.07], leftOut: null, keys: [0] },
};

function open(swing = swingOf('a')) {
  setApp({ swing, route: { at: 'sheet' } });
  const [onClose, onChooseAnother] = [vi.fn(), vi.fn()];
  const props = { path: PATH, view: 'face-on', swing, onClose, onChooseAnother } as const;
  return { ...show(<ImportDialog {...props} />), onClose, onChooseAnother };
}
const answerLook = (summary: ClipSummary) => act(() => program.next('clip/look').answer<'clip/look'>(summary));
const refuseLook = (error: AppError) => act(() => program.next('clip/look').refuse(error));

describe('a clip that is to come in', () => {
  test('cannot be added while it is looked at', () => {
    open();
    expect(screen.getByText('Looking at the clip ...')).toBeTruthy();
    expect(screen.getByRole('button', { name: 'Add clip' })).toHaveProperty('disabled', true);
  });

  test('is added as the coach says once it was looked at', async () => {
    const { hand, onClose } = open();
    await answerLook(SUMMARY);
    expect(screen.getByText(/^3 frames, 0\.1 s, 1920 × 1080/)).toBeTruthy();
    await hand.click(screen.getByLabelText('Leave it where it is'));
    await hand.click(screen.getByRole('button', { name: 'Add clip' }));
    expect(onClose).toHaveBeenCalledOnce();
    const order = { path: PATH, view: 'face-on', stored: 'linked', span: null, swingId: 'a' };
    expect(program.next('clip/import').input).toMatchObject(order);
  });

  test('that is long is shortened unless the coach says otherwise', async () => {
    const { hand } = open();
    await answerLook({ ...SUMMARY, long: true, suggestedSpan: { from: 1, to: 2 } });
    expect(screen.getByRole('button', { name: 'Add the swing' })).toHaveProperty('disabled', false);
    await hand.click(screen.getByLabelText('Keep only the swing'));
    expect(screen.getByRole('button', { name: 'Add clip' })).toHaveProperty('disabled', false);
  });

  test('offers only the view that the swing has no clip of', async () => {
    open(swingOf('a', [clipOf('x')]));
    await answerLook(SUMMARY);
    expect(screen.queryByLabelText('Face on')).toBeNull();
    expect(screen.getByLabelText('Down the line')).toBeTruthy();
  });
});

describe('a file that cannot be read', () => {
  const EMPTY = new AppError('file-empty', `${PATH} is empty; copy it from the camera again.`);

  test('is refused with what to do, and its long name only once', async () => {
    open();
    await refuseLook(EMPTY);
    expect(screen.getByRole('alert').textContent).toBe('This file is empty; copy it from the camera again.');
    expect(screen.getAllByText(PATH)).toHaveLength(1);
  });

  test('cannot be added: another is chosen instead, also by Enter', async () => {
    const { hand, onChooseAnother } = open();
    await refuseLook(EMPTY);
    expect(screen.queryByRole('button', { name: 'Add clip' })).toBeNull();
    await hand.click(screen.getByRole('button', { name: 'Choose another file' }));
    expect(onChooseAnother).toHaveBeenCalledOnce();
    expect(program.asked.map(({ name }) => name)).not.toContain('clip/import');
  });

  test('is refused in words also where the fault is ours', async () => {
    open();
    await refuseLook(new AppError('internal', 'Baybook could not do that. Try again.'));
    expect(screen.getByRole('alert').textContent).toBe('Baybook could not do that. Try again.');
  });
});
