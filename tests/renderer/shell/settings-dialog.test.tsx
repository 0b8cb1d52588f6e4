// @vitest-environment jsdom
import { beginEmpty, program, show } from '../shown-view.tsx';
import { act, screen } from '@testing-library/react';
import { describe, expect, test, vi } from 'vitest';
import { unitInWords } from '../../../core/measure/words/format.ts';
import { USUAL_SETTINGS } from '../../../core/model/settings.ts';
import { SettingsDialog } from '../../../renderer/shell/settings-dialog.tsx';
import { changeSettings, settings } from '../../../renderer/shell/state/settings.ts';

beginEmpty();

function open() {
  changeSettings(USUAL_SETTINGS);
  program.asked.length = 0;
  const onClose = vi.fn();
  return { ...show(<SettingsDialog onClose={onClose} />), onClose };
}
const keyButton = (label: RegExp) => screen.getByRole('button', { name: label });

test('units are chosen, put to use at once, and written', async () => {
  const { hand } = open();
  await hand.click(screen.getByRole('radio', { name: 'inches, yards, mph' }));
  expect(program.next('settings/write').input).toMatchObject({ units: 'imperial' });
  expect(unitInWords('cm')).toBe('in');
  await hand.click(screen.getByRole('radio', { name: 'cm, m, m/s' }));
  expect(unitInWords('cm')).toBe('cm');
});

describe('keys', () => {
  test('are changed by pressing the new one, and written', async () => {
    const { hand } = open();
    await hand.click(keyButton(/Fit the player, or the whole picture/));
    expect(screen.getByText('Press the new key. Esc leaves it as it is.')).toBeTruthy();
    await hand.keyboard('j');
    expect(settings.get().keys).toEqual({ fit: ['j'] });
    expect(program.next('settings/write').input).toMatchObject({ keys: { fit: ['j'] } });
  });

  test('that a mark or the system needs are refused, with the reason', async () => {
    const { hand } = open();
    await hand.click(keyButton(/Fit the player, or the whole picture/));
    await hand.keyboard('h');
    expect(screen.getByRole('status').textContent).toContain('stays as it is. H says that a body point is hidden.');
    expect(settings.get().keys).toEqual({});
  });

  test('that another command had are taken from it, and that is said', async () => {
    const { hand } = open();
    await hand.click(keyButton(/Fit the player, or the whole picture/));
    await hand.keyboard('r');
    expect(screen.getByRole('status').textContent).toContain('was the key for Play, or stop, which has lost it');
    expect(settings.get().keys).toEqual({ fit: ['r'], run: [] });
  });

  test('stay as they are after Esc, which does not close the dialog', async () => {
    const { hand, onClose } = open();
    await hand.click(keyButton(/Fit the player, or the whole picture/));
    await hand.keyboard('{Escape}');
    expect([settings.get().keys, onClose.mock.calls.length]).toEqual([{}, 0]);
  });
});

test('the size of text is in use at once', async () => {
  const { hand } = open();
  await act(() => hand.click(screen.getByLabelText('150 %')));
  expect([document.documentElement.dataset['text'], settings.get().textSize]).toEqual(['150', 150]);
});
