import { beforeEach, describe, expect, test } from 'vitest';
import { openBench } from '../../../../renderer/bench/state/bench-actions.ts';
import { closeRepeatCheck, openRepeatCheck, stageOf } from '../../../../renderer/repeat/state/repeat-check.ts';
import { app, setApp } from '../../../../renderer/shell/state/app-state.ts';
import { backTo, goBack, openSettings, toggleGoals } from '../../../../renderer/shell/state/go-back.ts';
import { placeOf } from '../../../../renderer/shell/state/route.ts';
import type { Route } from '../../../../renderer/shell/state/route.ts';
import { emptyHistory } from '../../../../renderer/swing/state/history.ts';
import { openSwing } from '../../../../renderer/swing/state/swing-actions.ts';
import { controlProgram } from '../../controlled-program.ts';
import { clipOf, indexOf, swingOf } from '../../sample-swing.ts';

/** What lies over what, the topmost first. */
function layers(route: Route = app.get().route): readonly string[] {
  return 'under' in route ? [route.at, ...layers(route.under)] : [route.at];
}

let program: ReturnType<typeof controlProgram>;
beforeEach(() => {
  program = controlProgram((name) => {
    if (name === 'swing/then') return Promise.resolve({ ok: true, value: { thenId: null } });
    if (name === 'frames/rest') return Promise.resolve({ ok: true, value: null });
    return null;
  });
  setApp({ route: { at: 'book' }, swing: null, then: null, bench: null, indexes: {}, history: emptyHistory() });
});

/** A swing on its sheet. */
function onSheet(): void {
  setApp({ route: { at: 'sheet' }, swing: swingOf('a', [clipOf('x')]), indexes: { x: indexOf(4) } });
}
const nextTurn = () => new Promise((resolve) => setTimeout(resolve));

describe('going back', () => {
  test('takes away one thing after the other, and ends at the place that lies under all', () => {
    onSheet();
    openBench('x', 1);
    toggleGoals();
    openRepeatCheck();
    expect(layers()).toEqual(['repeat check', 'goals', 'bench']);
    goBack();
    goBack();
    expect(layers()).toEqual(['bench']);
    goBack();
    expect([layers(), app.get().bench?.index]).toEqual([['bench'], 1]);
  });

  test('to the sheet takes the frame and all that lies over it away', () => {
    onSheet();
    openBench('x', 1);
    toggleGoals();
    backTo('sheet');
    expect([layers(), app.get().bench]).toEqual([['sheet'], null]);
  });

  test('to the book leaves the goals at once, and the swing once all of it is written', async () => {
    onSheet();
    toggleGoals();
    backTo('book');
    expect(layers()).toEqual(['sheet']);
    await nextTurn();
    expect([layers(), app.get().swing]).toEqual([['book'], null]);
  });

  test('from the settings or the repeat check leads to where they were opened', () => {
    onSheet();
    openSettings();
    openSettings();
    expect(layers()).toEqual(['settings', 'sheet']);
    goBack();
    openRepeatCheck();
    expect(stageOf(app.get())).toEqual({ name: 'choosing' });
    closeRepeatCheck();
    closeRepeatCheck();
    expect([layers(), stageOf(app.get())]).toEqual([['sheet'], null]);
  });
});

test('a swing that opens while the goals lie over the book opens under it', async () => {
  const opened = openSwing('a');
  toggleGoals();
  await nextTurn();
  await program.next('swing/open').answer<'swing/open'>(swingOf('a'));
  await program.next('edit/list').answer<'edit/list'>({ done: [], undone: [] });
  expect([await opened, layers(), placeOf(app.get().route).at]).toEqual([true, ['goals', 'sheet'], 'sheet']);
  toggleGoals();
  expect(layers()).toEqual(['sheet']);
});
