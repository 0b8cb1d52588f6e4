import type { ReadingKey } from '../../../core/model/reading.ts';
import { createStore } from '../../shell/state/store.ts';

/** The readings that are drawn on the picture on the bench at present, told by whoever draws them. */
export const readingsInSight = createStore<readonly ReadingKey[]>([]);
