import { createStore } from '../../shell/state/store.ts';

/** Which readings of a named frame are drawn on its picture. `chosen`: as `chosenOf` says. */
export type PictureReadings = 'none' | 'chosen' | 'all';

const ORDER: readonly PictureReadings[] = ['none', 'chosen', 'all'];

/** For as long as the program runs. */
export const pictureReadings = createStore<{ readonly shown: PictureReadings }>({ shown: 'chosen' });

/** From none to the chosen ones, to all, and round again. */
export function nextPictureReadings(): void {
  pictureReadings.update(({ shown }) => ({ shown: ORDER[(ORDER.indexOf(shown) + 1) % ORDER.length] ?? 'chosen' }));
}
