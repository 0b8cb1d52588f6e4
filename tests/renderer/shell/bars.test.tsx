// @vitest-environment jsdom
import { beginEmpty, program, show } from '../shown-view.tsx';
import { act, fireEvent, screen, within } from '@testing-library/react';
import { describe, expect, test, vi } from 'vitest';
import { AppError } from '../../../core/model/errors.ts';
import { JobBars, MessageBar } from '../../../renderer/shell/bars.tsx';
import { app, setApp } from '../../../renderer/shell/state/app-state.ts';
import { tellDone, tellTrouble } from '../../../renderer/shell/state/messages.ts';

beginEmpty();

const FULL = new AppError('disk-full', 'The disk is full.');

describe('what the program has to say', () => {
  test('is trouble in one bar and what was done in another, each closed by itself', async () => {
    const { hand } = show(<MessageBar />);
    act(() => {
      tellTrouble(FULL);
      tellDone('Wrote the swing.');
    });
    expect([screen.getByRole('alert').textContent, screen.getByRole('status').textContent]).toEqual([
      'The disk is full.Close',
      'Wrote the swing.Close',
    ]);
    await hand.click(screen.getAllByRole('button', { name: 'Close' })[1] ?? document.body);
    expect([screen.queryByRole('status'), screen.getByRole('alert').textContent]).toEqual([
      null,
      'The disk is full.Close',
    ]);
  });

  test('does its step and goes', async () => {
    const run = vi.fn();
    const { hand } = show(<MessageBar />);
    act(() => tellTrouble(FULL, { label: 'Save again', run }));
    await hand.click(screen.getByRole('button', { name: 'Save again' }));
    expect([run.mock.calls.length, app.get().messages]).toEqual([1, []]);
  });

  test('goes by itself where it asks for nothing, and stays where it is trouble', () => {
    vi.useFakeTimers();
    show(<MessageBar />);
    act(() => {
      tellTrouble(FULL);
      tellDone('Wrote the swing.');
    });
    act(() => void vi.advanceTimersByTime(60_000));
    expect(app.get().messages.map(({ text }) => text)).toEqual(['The disk is full.']);
  });

  test('stays under the pointer, and while a button in it has the focus; then its time begins anew', () => {
    vi.useFakeTimers();
    show(<MessageBar />);
    act(() => tellDone('Wrote the swing.'));
    const bar = screen.getByRole('status');
    const close = within(bar).getByRole('button', { name: 'Close' });
    const isThereAfter = (milliseconds: number): boolean => {
      act(() => void vi.advanceTimersByTime(milliseconds));
      return screen.queryByRole('status') !== null;
    };
    fireEvent.pointerEnter(bar);
    expect(isThereAfter(60_000)).toBe(true);
    act(() => close.focus());
    fireEvent.pointerLeave(bar);
    expect(isThereAfter(60_000)).toBe(true);
    act(() => close.blur());
    expect(isThereAfter(5000)).toBe(true);
    expect(isThereAfter(60_000)).toBe(false);
  });

  test('counts its time only while the window is looked at', () => {
    vi.useFakeTimers();
    show(<MessageBar />);
    act(() => tellDone('Wrote the swing.'));
    const look = (state: DocumentVisibilityState): void => {
      vi.spyOn(document, 'visibilityState', 'get').mockReturnValue(state);
      act(() => void document.dispatchEvent(new Event('visibilitychange')));
    };
    look('hidden');
    act(() => void vi.advanceTimersByTime(60_000));
    expect(screen.queryByRole('status')).not.toBeNull();
    look('visible');
    act(() => void vi.advanceTimersByTime(60_000));
    expect(screen.queryByRole('status')).toBeNull();
    vi.restoreAllMocks();
  });
});

test('a job shows how far it is, and can be stopped', async () => {
  setApp({ jobs: [{ jobId: 'a', label: 'Copying the clip', done: 30, total: 120 }] });
  const { hand } = show(<JobBars />);
  expect(screen.getByRole('progressbar', { name: 'Copying the clip' }).getAttribute('aria-valuenow')).toBe('25');
  await hand.click(screen.getByRole('button', { name: 'Cancel: Copying the clip' }));
  expect(program.next('job/cancel').input).toEqual({ jobId: 'a' });
});
