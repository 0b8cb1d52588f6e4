import type { Edit } from '../../../core/model/edit.ts';
import { createStore } from '../../shell/state/store.ts';

/** The edit that was taken back or made again last, a new value at each step; its place comes into sight. */
export const lastStep = createStore<{ readonly edit: Edit } | null>(null);
