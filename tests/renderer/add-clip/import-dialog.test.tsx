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
const answerFacts = (summary: ClipSummary) => act(() => program.next('clip/look').answer<'clip/look'>(summary));
async function answerLook(summary: ClipSummary): Promise<void> {
  await act(() => program.next('clip/coded-start').answer<'clip/coded-start'>(null));
  await act(() => program.next('clip/first-picture').answer<'clip/first-picture'>(null));
  await answerFacts(summary);
}
const refuseLook = (error: AppError) => act(() => program.next('clip/look').refuse(error));

describe('a clip that is to come in', () => {
  test('cannot be added while it is looked at', () => {
    open();
    expect(screen.getByText('Looking at the clip ...')).toBeTruthy();
    expect(screen.getByRole('button', { name: 'Add clip' })).toHaveProperty('disabled', true);
  });

  test('has all else wait for its first picture, but no longer than a second', async () => {
    open();
    await answerFacts({ ...SUMMARY, long: true, suggestedSpan: { from: 1, to: 2 } });
    expect(screen.getByText('Looking at the clip ...')).toBeTruthy();
    expect(program.asked.map(({ name }) => name)).not.toContain('clip/find-swings');
    await screen.findByText(/^3 frames/, {}, { timeout: 3000 });
    expect(program.asked.map(({ name }) => name)).toContain('clip/find-swings');
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

describe('a long clip with several swings', () => {
  const LONG: ClipSummary = {
    ...SUMMARY,
    ...{ long: true, seconds: 100, frameCount: 1000, suggestedSpan: { from: 900, to: 999 } },
    times: Array.from({ length: 1000 }, (_, frame) => frame / 10),
  };
  const swing = (impact: number, seen = true, heard = true) => ({
    ...{ impact, seen, heard },
    span: { from: impact - 30, to: impact + 20 },
  });
  const FOUND = [swing(100), swing(250, false, false), swing(400, false, true), swing(700)];
  const places = (ends: readonly (number | null)[]) =>
    ends.map((endsAt, at) => ({
      swingId: at === 0 ? 'a' : `s${String(at)}`,
      label: `Swing ${String(at + 1)}`,
      endsAt,
    }));

  async function openLong(ends: readonly (number | null)[] = [null]) {
    const opened = open();
    await answerLook(LONG);
    await act(() => program.next('swing/places').answer<'swing/places'>(places(ends)));
    return opened;
  }
  const answerFound = () => act(() => program.next('clip/find-swings').answer<'clip/find-swings'>(FOUND));
  const press = (name: string) => screen.getByRole('button', { name });

  test('says how far it is looked through; meanwhile a part is set by hand', async () => {
    await openLong();
    const asked = program.asked.find(({ name }) => name === 'clip/find-swings');
    const jobId = (asked?.input as { jobId: string } | undefined)?.jobId ?? '';
    act(() => program.reportJob({ jobId, label: '', done: 345, total: 1000 }));
    expect(screen.getByText(/^Looking for swings: 34 %/)).toBeTruthy();
    expect(press('Add the swing')).toHaveProperty('disabled', false);
  });

  test('offers what was struck, the last one ticked, and keeps it as it was found', async () => {
    const { hand } = await openLong();
    await answerFound();
    expect(screen.getByText(/^3 swings found\..* 1 other movement without a strike is not listed/)).toBeTruthy();
    expect(screen.getAllByRole('checkbox').map((box) => (box as HTMLInputElement).checked)).toEqual([
      ...[true, false, false, true],
    ]);
    expect(screen.getByText(/^Unsure: a strike is heard/)).toBeTruthy();
    await hand.click(press('Add the swing'));
    const order = { swingId: 'a', path: PATH, view: 'face-on', stored: 'copied', span: { from: 670, to: 720 } };
    expect(program.next('clip/import').input).toMatchObject(order);
  });

  test('takes several in one go: the open swing gets the first, new ones the others', async () => {
    const { hand } = await openLong();
    await answerFound();
    await hand.click(screen.getByLabelText('0:10.0'));
    expect(screen.getByText('Goes to Swing 1')).toBeTruthy();
    expect(screen.getByText('Becomes a new swing')).toBeTruthy();
    expect(screen.queryByText(/Frames/)).toBeNull();
    await hand.click(press('Add 2 swings'));
    expect(program.next('clip/import').input).toMatchObject({
      swingId: 'a',
      asNewSwing: false,
      span: { from: 70, to: 120 },
    });
  });

  test('of a second camera goes to the swings that were struck at the same time', async () => {
    const { hand } = await openLong([507, 537.5, 567]);
    await answerFound();
    for (const time of ['0:10.0', '0:40.0']) await hand.click(screen.getByLabelText(time));
    expect(screen.getAllByText(/^Goes to/).map(({ textContent }) => textContent)).toEqual([
      ...['Goes to Swing 1', 'Goes to Swing 2', 'Goes to Swing 3'],
    ]);
  });

  test('asks which swing is which where times do not tell', async () => {
    const { hand } = await openLong([10, 500]);
    await answerFound();
    await hand.click(screen.getByLabelText('0:10.0'));
    const [first, second] = screen.getAllByLabelText('Which swing is it?');
    expect([first, second].map((list) => (list as HTMLSelectElement).value)).toEqual(['a', 's1']);
    await hand.selectOptions(second as HTMLElement, 'A new swing');
    await hand.click(press('Add 2 swings'));
    expect(program.next('clip/import').input).toMatchObject({ swingId: 'a', asNewSwing: false });
  });

  test('is not looked through any more once the dialog is gone', async () => {
    const { unmount } = await openLong();
    const { jobId } = program.next('clip/find-swings').input as { jobId: string };
    unmount();
    expect(program.next('job/cancel').input).toEqual({ jobId });
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
