import { createStore } from './store.ts';

/** Whether the list of keys and the size of text are on screen. */
export const settingsOpen = createStore<boolean>(false);
