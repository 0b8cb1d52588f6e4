import { beforeEach, describe, expect, test } from 'vitest';
import { openBench } from '../../../../renderer/bench/state/bench-actions.ts';
import {
  comparedClips,
  compareView,
  flick,
  goToCompared,
  goToComparedName,
  layBy,
  laying,
  openComparison,
  showThen,
  stepCompared,
} from '../../../../renderer/compare/state/comparing.ts';
import { app, setApp } from '../../../../renderer/shell/state/app-state.ts';
import { backTo } from '../../../../renderer/shell/state/go-back.ts';
import type { BookClip } from '../../../../core/model/book.ts';
import type { Checkpoint, View } from '../../../../core/model/words.ts';
import { clipOf, indexOf, swingOf } from '../../sample-swing.ts';

function clip(id: string, view: View, frames: Partial<Record<Checkpoint, number>>): BookClip {
  const checkpoints = Object.fromEntries(
    Object.entries(frames).map(([name, index]) => [name, { index, pts: index, ticks: 1 }]),
  );
  return { ...clipOf(id, 20), view, checkpoints };
}

const FRAMES = { address: 2, top: 9, impact: 14 };
const now = swingOf('now', [clip('n1', 'down-the-line', FRAMES), clip('n2', 'face-on', { address: 1, top: 8 })]);
const then = swingOf('then', [clip('t1', 'down-the-line', FRAMES), clip('t2', 'face-on', { address: 4, top: 11 })]);
const at = () => app.get().comparing?.index;

beforeEach(() => {
  const indexes = Object.fromEntries(['n1', 'n2', 't1', 't2'].map((id) => [id, indexOf(20)]));
  setApp({ route: { at: 'sheet' }, swing: now, then, bench: null, comparing: null, indexes });
  laying.update(() => ({ by: 'beside', then: 0.5, flicked: false }));
});

describe('where the comparison opens', () => {
  test('at the first of the usual checkpoints after address, in a view that both have', () => {
    openComparison();
    expect(app.get().route).toEqual({ at: 'comparison' });
    expect([at(), comparedClips(app.get())?.then.id, comparedClips(app.get())?.now.id]).toEqual([9, 't1', 'n1']);
  });

  test('at what was asked for; the frame on the bench is left', () => {
    openBench('n1', 3);
    openComparison('face-on', 'address');
    expect([at(), app.get().bench, comparedClips(app.get())?.now.id]).toEqual([1, null, 'n2']);
  });

  test('nowhere without an earlier swing, or with one of another view only', () => {
    setApp({ then: null });
    openComparison();
    setApp({
      then: swingOf('then', [clip('t2', 'face-on', {})]),
      swing: swingOf('now', [clip('n1', 'down-the-line', {})]),
    });
    openComparison();
    expect([app.get().route, app.get().comparing]).toEqual([{ at: 'sheet' }, null]);
  });

  test('the other view shows the same checkpoint', () => {
    openComparison('down-the-line', 'top');
    compareView('face-on');
    expect([at(), comparedClips(app.get())?.now.id]).toEqual([8, 'n2']);
  });

  test('the way back to the sheet ends it', () => {
    openComparison();
    backTo('sheet');
    expect([app.get().route, app.get().comparing]).toEqual([{ at: 'sheet' }, null]);
  });
});

describe('frames of then and now', () => {
  beforeEach(() => openComparison('down-the-line', 'top'));

  test('are stepped through, and stop at the ends', () => {
    stepCompared(3);
    expect(at()).toBe(12);
    stepCompared(-100);
    expect(at()).toBe(0);
    goToCompared(Number.MAX_SAFE_INTEGER);
    expect(at()).toBe(19);
  });

  test('go from name to name, and stay where there is none ahead', () => {
    goToComparedName(1);
    expect(at()).toBe(14);
    goToComparedName(1);
    expect(at()).toBe(14);
    goToComparedName(-1);
    expect(at()).toBe(9);
  });
});

describe('how then lies to now', () => {
  test('the slider stays between none and all', () => {
    showThen(1.4);
    expect(laying.get().then).toBe(1);
    showThen(-3);
    expect(laying.get().then).toBe(0);
  });

  test('flicking lays one over the other first, then shows then alone and what was before in turn', () => {
    showThen(0.3);
    flick();
    expect(laying.get()).toEqual({ by: 'over', then: 0.3, flicked: false });
    flick();
    expect(laying.get().flicked).toBe(true);
    flick();
    expect(laying.get()).toEqual({ by: 'over', then: 0.3, flicked: false });
  });

  test('whoever takes the slider, or lays them beside each other, has let go of flicking', () => {
    flick();
    flick();
    showThen(0.7);
    expect(laying.get().flicked).toBe(false);
    flick();
    layBy('beside');
    expect(laying.get()).toEqual({ by: 'beside', then: 0.7, flicked: false });
  });
});
