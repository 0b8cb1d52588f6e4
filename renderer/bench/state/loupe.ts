import { createStore } from '../../shell/state/store.ts';

/** Whether the enlarged view comes up while something is placed or dragged. For as long as the program runs. */
export const loupe = createStore<{ readonly on: boolean }>({ on: true });
