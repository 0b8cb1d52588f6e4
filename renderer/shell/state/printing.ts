import type { ReactNode } from 'react';
import { say } from '../../../core/model/say.ts';
import { ask } from '../../api.ts';
import { tellDone } from './messages.ts';
import { createStore } from './store.ts';

/** What is on its way to the printer; null: nothing. On the screen it does not show (renderer/printed.tsx). */
export const printed = createStore<ReactNode>(null);

/**
 * Prints this and nothing else, by the system's dialog. `paper`: it is made of whole pages of that size; null: it flows.
 * A second one while that is under way is none. @throws AppError `not-printed`.
 */
export async function printOut(content: ReactNode, paper: 'A4' | 'Letter' | null): Promise<void> {
  if (printed.get() !== null) return;
  printed.update(() => content);
  try {
    await new Promise((resolve) => setTimeout(resolve));
    await Promise.all(
      [...document.querySelectorAll<HTMLImageElement>('[data-printed] img')].map((img) => img.decode()),
    );
    if (await ask('program/print', { paper })) tellDone(say`Handed to the printer.`);
  } finally {
    printed.update(() => null);
  }
}
