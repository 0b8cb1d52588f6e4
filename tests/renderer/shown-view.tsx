import { cleanup, configure, render } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import type { ReactNode } from 'react';
import { afterEach, beforeEach, vi } from 'vitest';
import { setApp } from '../../renderer/shell/state/app-state.ts';
import { emptyHistory } from '../../renderer/swing/state/history.ts';
import { controlProgram } from './controlled-program.ts';

/** A view below Electron: rendered in Node, asked by what a coach reads. What only a real window has (layout, pixels) is absent. */

class NeverObserves {
  observe(): void {
    // There is no layout that could change.
  }
  unobserve(): void {
    // As above.
  }
  disconnect(): void {
    // As above.
  }
}

/** The program behind the view. It is there before any view is loaded, as in the window: import this file first. */
export let program = controlProgram();

// What is hidden from a reader is looked for in no test here; finding out costs more than all else.
configure({ defaultHidden: true });

/** Before each test of a file nothing is on screen. Called by every file of views: files share what they import. */
export function beginEmpty(): void {
  beforeEach(() => {
    vi.stubGlobal('ResizeObserver', NeverObserves);
    vi.stubGlobal('IntersectionObserver', NeverObserves);
    // Ids in here are letters and digits.
    vi.stubGlobal('CSS', { escape: (text: string) => text, supports: () => false });
    Element.prototype.scrollIntoView = () => undefined;
    HTMLCanvasElement.prototype.getContext = () => null;
    program = controlProgram();
    setApp({
      ...{ route: { at: 'book' }, facts: null, students: null, studentId: null, swing: null, then: null, bench: null },
      comparing: null,
      ...{ indexes: {}, history: emptyHistory(), saving: 'saved', messages: [], jobs: [] },
    });
  });
  afterEach(() => {
    cleanup();
    vi.useRealTimers();
  });
}

/** The view on screen, and a hand. */
export function show(view: ReactNode) {
  return { ...render(view), hand: userEvent.setup({ delay: null }) };
}
