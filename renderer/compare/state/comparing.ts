import type { BookClip } from '../../../core/model/book.ts';
import type { Checkpoint, View } from '../../../core/model/words.ts';
import { CHECKPOINTS } from '../../../core/model/words.ts';
import { sharedViews, usualCheckpoints } from '../../../core/report/checkpoints.ts';
import type { PlaybackPlace } from '../../bench/playback/state/playback-place.ts';
import { app, setApp } from '../../shell/state/app-state.ts';
import type { AppState } from '../../shell/state/app-state.ts';
import { withPlace } from '../../shell/state/route.ts';
import { createStore } from '../../shell/state/store.ts';

/** How then lies to now, for as long as the program runs. */
export interface Laying {
  readonly by: 'beside' | 'over';
  /** How much of then is seen over now, 0 to 1. */
  readonly then: number;
  /** The flicker key is down, or its button was pressed: then is seen alone. */
  readonly flicked: boolean;
}

const HALF = 0.5;
export const laying = createStore<Laying>({ by: 'beside', then: HALF, flicked: false });

export function layBy(by: Laying['by']): void {
  laying.update((state) => ({ ...state, by, flicked: false }));
}

/** @param then 0 to 1; what lies outside counts as the nearer end */
export function showThen(then: number): void {
  laying.update((state) => ({ ...state, then: Math.min(1, Math.max(0, then)), flicked: false }));
}

/** Then alone, or as before: what moved between the two leaps to the eye. One over the other comes first. */
export function flick(): void {
  laying.update((state) => (state.by === 'over' ? { ...state, flicked: !state.flicked } : { ...state, by: 'over' }));
}

/** The views of which both swings have a clip. */
export function comparableViews({ swing, then }: Pick<AppState, 'swing' | 'then'>): readonly View[] {
  return swing === null || then === null ? [] : sharedViews([then, swing]);
}

/** Then's clip and now's of the view that is compared; null where one is gone. */
export function comparedClips(state: AppState): { readonly then: BookClip; readonly now: BookClip } | null {
  const now = state.swing?.clips.find(({ id }) => id === state.comparing?.clipId);
  const then = state.then?.clips.find(({ view }) => view === now?.view);
  return now === undefined || then === undefined ? null : { then, now };
}

/**
 * Shows then and now beside each other, in a view and at a checkpoint that both have. Left out: the first view, and the first
 * of the usual checkpoints after address.
 */
export function openComparison(view: View | null = null, checkpoint: Checkpoint | null = null): void {
  const { swing, then, route } = app.get();
  if (swing === null || then === null) return;
  const views = sharedViews([then, swing]);
  const shown = view !== null && views.includes(view) ? view : views[0];
  const clip = swing.clips.find((each) => each.view === shown);
  if (shown === undefined || clip === undefined) return;
  const usual = usualCheckpoints([then, swing], [shown]);
  const at = checkpoint ?? usual.find((each) => each !== 'address') ?? usual[0];
  const index = at === undefined ? 0 : (clip.checkpoints[at]?.index ?? 0);
  setApp({ route: withPlace(route, 'comparison'), bench: null, comparing: { clipId: clip.id, index } });
}

/** The same checkpoint in the other view, where both have one there. */
export function compareView(view: View): void {
  const clips = comparedClips(app.get());
  const at = app.get().comparing?.index;
  const here = CHECKPOINTS.find((checkpoint) => clips?.now.checkpoints[checkpoint]?.index === at);
  openComparison(view, here ?? null);
}

/** Goes to a frame of now; beyond an end it stops at the end. */
export function goToCompared(index: number): void {
  const { comparing, indexes } = app.get();
  if (comparing === null) return;
  const count = indexes[comparing.clipId]?.frames.length ?? 1;
  const wanted = Math.min(count - 1, Math.max(0, Math.round(index)));
  if (wanted !== comparing.index) setApp({ comparing: { ...comparing, index: wanted } });
}

export function stepCompared(frames: number): void {
  const { comparing } = app.get();
  if (comparing !== null) goToCompared(comparing.index + frames);
}

/** Goes to the nearest named frame of now before (-1) or after (+1) this one, if there is one. */
export function goToComparedName(direction: -1 | 1): void {
  const { comparing } = app.get();
  const clips = comparedClips(app.get());
  if (comparing === null || clips === null) return;
  const frames = CHECKPOINTS.flatMap((checkpoint) => clips.now.checkpoints[checkpoint]?.index ?? []);
  const ahead = frames.filter((frame) => (frame - comparing.index) * direction > 0);
  if (ahead.length > 0) goToCompared(direction > 0 ? Math.min(...ahead) : Math.max(...ahead));
}

/** Now is played, and then goes with it. */
export const thenAndNow: PlaybackPlace = {
  at: ({ comparing }) => (comparing === null ? null : { ...comparing, busy: false }),
  goTo: goToCompared,
};
