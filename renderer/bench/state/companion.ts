import { lowered, say } from '../../../core/model/say.ts';
import type { BookClip, BookSwing } from '../../../core/model/book.ts';
import { VIEW_LABELS } from '../../../core/model/words.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { lockViews, whatLockNeeds } from '../../../core/time/lock-views.ts';
import type { ViewLock } from '../../../core/time/lock-views.ts';
import { app } from '../../shell/state/app-state.ts';
import type { AppState } from '../../shell/state/app-state.ts';
import { benchClip, openBench } from './bench-actions.ts';
import { createStore } from '../../shell/state/store.ts';

/** What is shown beside the frame on the bench: the other view of the swing, or the same view of the earlier swing. */
export type CompanionChoice = 'none' | 'other' | 'then';

export const companion = createStore<{ readonly choice: CompanionChoice }>({ choice: 'none' });

export function chooseCompanion(choice: CompanionChoice): void {
  companion.update(() => ({ choice }));
}

/** The clip that a choice means beside the one on the bench, or null where there is none. */
export function companionClip(state: AppState, choice: CompanionChoice): BookClip | null {
  const clip = benchClip(state);
  if (clip === null || choice === 'none') return null;
  if (choice === 'other') return state.swing?.clips.find(({ id }) => id !== clip.id) ?? null;
  return clipOfView(state.then, clip);
}

function clipOfView(swing: BookSwing | null, { view, id }: BookClip): BookClip | null {
  return swing?.clips.find((clip) => clip.view === view && clip.id !== id) ?? null;
}

/** What clips are called beside each other, in the middle of a sentence; only the companion can be of "then". */
export function nameOfClip({ view }: BookClip, choice: CompanionChoice): string {
  const name = lowered(VIEW_LABELS[view]);
  return choice === 'then' ? say`${name} then` : name;
}

/** How a companion goes with the clip on the bench. */
export interface Pairing {
  readonly lock: ViewLock | null;
  /** What is to be named where there is no lock, else null. */
  readonly needs: string | null;
}

/** Pairs two clips of the swing, or of then and now. */
export function pair(
  main: { readonly clip: BookClip; readonly index: ClipIndex },
  other: { readonly clip: BookClip; readonly index: ClipIndex },
  choice: CompanionChoice,
): Pairing {
  const [from, to] = [lockable(main), lockable(other)];
  const lock = lockViews(from, to);
  const names = { from: nameOfClip(main.clip, 'none'), to: nameOfClip(other.clip, choice) };
  return { lock, needs: lock === null ? whatLockNeeds(from, to, names) : null };
}

function lockable({ clip, index }: { readonly clip: BookClip; readonly index: ClipIndex }) {
  const { timebase, nominalRate, captureRate, checkpoints } = clip;
  return { timebase, nominalRate, captureRate, checkpoints, frames: index.frames };
}

/** Both views, or the one on the bench alone; nothing happens where the swing has one only. */
export function toggleBothViews(): void {
  const { choice } = companion.get();
  if (choice === 'other') chooseCompanion('none');
  else if (companionClip(app.get(), 'other') !== null) chooseCompanion('other');
}

/** The companion comes to the fore at the frame it shows; the clip that was there becomes its companion. */
export function swapViews(frame: number): void {
  const other = companionClip(app.get(), 'other');
  if (other !== null) openBench(other.id, frame);
}
