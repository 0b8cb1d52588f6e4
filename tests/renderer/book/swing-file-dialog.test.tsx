// @vitest-environment jsdom
import { beginEmpty, program, show } from '../shown-view.tsx';
import { act, screen } from '@testing-library/react';
import { describe, expect, test, vi } from 'vitest';
import { AppError } from '../../../core/model/errors.ts';
import { SwingFileDialog } from '../../../renderer/book/swing-file-dialog.tsx';
import type { ChosenSwingFile } from '../../../electron/ipc/contract.ts';

beginEmpty();

const IN_BOOK = '/book/media/3f7a90c1d2.mp4';
const FILE: ChosenSwingFile = {
  ...{ path: '/robin.json', firstName: 'Robin', date: '2026-05-12', club: '7 iron', handedness: 'right' },
  clips: [{ view: 'face-on', name: 'driver-3.mp4', path: IN_BOOK }],
};

function open(file = FILE) {
  const onClose = vi.fn();
  return { ...show(<SwingFileDialog file={file} students={[]} studentId={null} onClose={onClose} />), onClose };
}

describe('a swing file that is to come in', () => {
  test('names its clips as the coach did, not as the book keeps them', () => {
    open();
    expect(screen.getByText(/driver-3\.mp4.*, found where the file says\.$/)).toBeTruthy();
    expect(screen.queryByText(new RegExp(IN_BOOK))).toBeNull();
  });

  test('says of a clip that is not there what to do, and brings nothing in without one', () => {
    open({ ...FILE, clips: [{ view: 'face-on', name: 'driver-3.mp4', path: null }] });
    expect(screen.getByText(/Choose it, or this view is left out\.$/)).toBeTruthy();
    expect(screen.getByRole('button', { name: 'Import the swing' })).toHaveProperty('disabled', true);
  });

  test('that is refused says why in the dialog, which stays', async () => {
    const { hand, onClose } = open();
    await hand.click(screen.getByRole('button', { name: 'Import the swing' }));
    const differs = new AppError('clip-changed', `${IN_BOOK} is not the clip this swing was marked on.`);
    await act(() => program.next('swing/import').refuse(differs));
    expect(screen.getByRole('alert').textContent).toMatch(
      /driver-3\.mp4.* is not the clip this swing was marked on\.$/,
    );
    expect(onClose).not.toHaveBeenCalled();
  });
});
