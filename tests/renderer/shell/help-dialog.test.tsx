// @vitest-environment jsdom
import { beginEmpty, program, show } from '../shown-view.tsx';
import { act, screen, within } from '@testing-library/react';
import { describe, expect, test } from 'vitest';
import { AppError } from '../../../core/model/errors.ts';
import { Printed } from '../../../renderer/printed.tsx';
import { turn } from '../controlled-program.ts';
import { HelpDialog } from '../../../renderer/shell/help-dialog.tsx';
import { openHelp, openSettings } from '../../../renderer/shell/state/go-back.ts';
import { app } from '../../../renderer/shell/state/app-state.ts';

beginEmpty();

const page = (name: string) => screen.getByRole('button', { name });
const part = (name: string) => screen.getByRole('region', { name });

describe('help', () => {
  test('opens with the glossary, which is narrowed by what is typed', async () => {
    const { hand } = show(<HelpDialog onClose={() => undefined} />);
    expect(within(part('Checkpoints')).getByText('Lead arm level, downswing')).toBeTruthy();
    await hand.type(screen.getByLabelText('Find a word'), 'spine angle');
    expect(screen.queryByRole('region', { name: 'Checkpoints' })).toBeNull();
    expect(within(part('Readings')).getByText('Back incline')).toBeTruthy();
    await hand.type(screen.getByLabelText('Find a word'), ' of no kind');
    expect(screen.getByText(/^No word here speaks of/)).toBeTruthy();
  });

  test('has the keys as they are now, the cautions, and what to note down; nothing is sent', async () => {
    const { hand } = show(<HelpDialog onClose={() => undefined} />);
    await hand.click(page('Keys'));
    expect(within(part('Edit')).getByText('Undo')).toBeTruthy();
    await hand.click(page('Cautions'));
    expect(part('Cautions').textContent).toMatch(/consent.*doctor or physiotherapist.*Never force a position.*face/s);
    await hand.click(page('Support'));
    expect(part('Support').textContent).toContain('Baybook sends nothing.');
  });

  test('prints the filming guide when that is asked for, alone, and says there why it could not be', async () => {
    const { hand } = show(
      <>
        <HelpDialog onClose={() => undefined} />
        <Printed />
      </>,
    );
    await hand.click(page('Filming guide'));
    const words = part('Filming guide').textContent;
    for (const said of ['Height', 'Distance', 'square to the target line', 'Rate', 'Shutter', 'For next month'])
      expect(words).toContain(said);
    expect(program.asked).toEqual([]);
    await hand.click(page('Print this guide'));
    await act(turn);
    const paper = document.querySelector('[data-printed]');
    expect([paper?.parentElement, words?.startsWith(paper?.textContent ?? '-')]).toEqual([document.body, true]);
    const asked = program.next('program/print');
    expect(asked.input).toEqual({ paper: null });
    await act(() => asked.refuse(new AppError('not-printed', 'No printer.')));
    expect(within(part('Filming guide')).getByRole('alert').textContent).toBe('No printer.');
    expect(document.querySelector('[data-printed]')).toBeNull();
  });

  test('lies over the page, and gives way to the settings', () => {
    openHelp();
    openHelp();
    expect(app.get().route).toEqual({ at: 'help', under: { at: 'book' } });
    openSettings();
    expect(app.get().route).toEqual({ at: 'settings', under: { at: 'book' } });
  });
});
