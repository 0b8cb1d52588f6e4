import { ENLARGED_LINES } from '../../../core/model/settings.ts';
import { changeSettings, settings } from '../../shell/state/settings.ts';
import { createStore } from '../../shell/state/store.ts';

/** Whether the enlarged view comes up while something is placed or dragged. For as long as the program runs. */
export const loupe = createStore<{ readonly on: boolean }>({ on: true });

/** A wheel turned by one notch (100 px) shows a fifth more or less. */
const WHEEL_FACTOR = 1.2;
const WHEEL_NOTCH = 100;

/** Enlarges more (wheel pixels < 0) or less; kept with the settings. */
export function enlargeByWheel(pixels: number): void {
  const lines = settings.get().enlargedLines * WHEEL_FACTOR ** (pixels / WHEEL_NOTCH);
  const { least, most } = ENLARGED_LINES;
  changeSettings({ enlargedLines: Math.min(most, Math.max(least, lines)) });
}
