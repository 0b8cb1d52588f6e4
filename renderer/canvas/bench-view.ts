import type { PicturePoint } from '../../core/model/mark.ts';
import { createStore } from '../shell/state/store.ts';
import type { Box } from '../../core/painting/box.ts';
import { centred, fitted, fittedTo, panned, pinched, visibleCentre, zoomed } from './view-transform.ts';
import type { ScreenPoint, Size, ViewTransform } from './view-transform.ts';

/** How the frame lies on the bench. */
export interface BenchView {
  readonly picture: Size;
  readonly size: Size;
  readonly view: ViewTransform;
  /** What was put there to fill the bench, and does so too when the bench changes size; null: the coach moved it since. */
  readonly fits: Fit | null;
}

/** The whole picture, or a part of it. */
export type Fit = 'whole' | Box;

const NOTHING: Size = { width: 1, height: 1 };

export const benchView = createStore<BenchView>({
  picture: NOTHING,
  size: NOTHING,
  view: fitted(NOTHING, NOTHING),
  fits: 'whole',
});

/** How near the pointer must come to a mark to take it, in CSS pixels. */
const REACH = 12;
/** One press of + or -. */
const KEY_FACTOR = 1.5;
/** A wheel turned by one notch (100 px) zooms by a fifth. */
const WHEEL_FACTOR = 1.2;
const WHEEL_NOTCH = 100;

/** A picture of this size comes to the bench: fitted to the part that holds the player, or whole. */
export function showPicture(picture: Size, player: Box | null): void {
  benchView.update((state) => ({ ...state, picture, ...filling(player ?? 'whole', picture, state.size) }));
}

/** The bench changed size. What was in its middle stays there. */
export function resize(size: Size): void {
  benchView.update((state) => {
    if (state.fits !== null) return { ...state, size, ...filling(state.fits, state.picture, size) };
    const left = (size.width - state.size.width) / 2;
    const top = (size.height - state.size.height) / 2;
    return { ...state, size, view: panned(state.view, left, top, state.picture, size) };
  });
}

/** Fits the player; pressed again, or where nothing says where the player is, the whole picture. */
export function fit(player: Box | null): void {
  benchView.update((state) => {
    const isOnPlayer = state.fits !== null && state.fits !== 'whole';
    return { ...state, ...filling(isOnPlayer || player === null ? 'whole' : player, state.picture, state.size) };
  });
}

/** The whole picture where the player fills the bench; what the coach chose stays. */
export function showRound(): void {
  benchView.update((state) =>
    state.fits === null ? state : { ...state, ...filling('whole', state.picture, state.size) },
  );
}

function filling(fits: Fit, picture: Size, size: Size): Pick<BenchView, 'view' | 'fits'> {
  return { fits, view: fits === 'whole' ? fitted(picture, size) : fittedTo(fits, picture, size) };
}

/** One picture pixel to one CSS pixel. */
export function oneToOne(): void {
  benchView.update((state) => ({ ...state, view: centred(state.picture, state.size, 1), fits: null }));
}

function zoomAround(factor: number, around: ScreenPoint): void {
  benchView.update((state) => ({
    ...state,
    view: zoomed(state.view, factor, around, state.picture, state.size),
    fits: null,
  }));
}

export function zoomByWheel(pixels: number, around: ScreenPoint): void {
  zoomAround(WHEEL_FACTOR ** (-pixels / WHEEL_NOTCH), around);
}

/** Zooms in (+1) or out (-1) around the middle. */
export function zoomByKey(direction: 1 | -1): void {
  const { size } = benchView.get();
  zoomAround(KEY_FACTOR ** direction, { left: size.width / 2, top: size.height / 2 });
}

export function pan(left: number, top: number): void {
  benchView.update((state) => ({
    ...state,
    view: panned(state.view, left, top, state.picture, state.size),
    fits: null,
  }));
}

/** Two fingers went from one pair of places to another. */
export function pinch(from: readonly [ScreenPoint, ScreenPoint], to: readonly [ScreenPoint, ScreenPoint]): void {
  benchView.update((state) => ({
    ...state,
    view: pinched(state.view, from, to, state.picture, state.size),
    fits: null,
  }));
}

/** The reach of the pointer, in picture pixels at the present zoom. */
export function reach(): number {
  return REACH / benchView.get().view.zoom;
}

/** What of the picture is in the middle of the bench. */
export function centre(): PicturePoint {
  const { view, size } = benchView.get();
  return visibleCentre(view, size);
}
