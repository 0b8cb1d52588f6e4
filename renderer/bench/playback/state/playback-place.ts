import type { AppState } from '../../../shell/state/app-state.ts';
import { goTo } from '../../state/bench-actions.ts';

/** Where frames are played: the bench, or then and now. */
export interface PlaybackPlace {
  /** The frame that is looked at; `busy` while a hand is at work on it, which ends a run. Null where nothing is open. */
  at(state: AppState): { readonly clipId: string; readonly index: number; readonly busy: boolean } | null;
  /** Shows this frame instead. */
  goTo(index: number): void;
}

export const onBench: PlaybackPlace = {
  at: ({ bench }) =>
    bench === null ? null : { clipId: bench.clipId, index: bench.index, busy: bench.tool.name !== 'idle' },
  goTo,
};
