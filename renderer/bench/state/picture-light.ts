import { createStore } from '../../shell/state/store.ts';

/** How the picture on the bench is shown, for the eye only: no stored picture, still or number ever sees it. */
export interface PictureLight {
  /** 1 = as it is; 0.5 to 2. */
  readonly brightness: number;
  /** 1 = as it is; 0.5 to 2. */
  readonly contrast: number;
  /** 0 = as it is, to 1: how far dark parts are brought up while bright ones stay. */
  readonly lift: number;
}

export const PLAIN_LIGHT: PictureLight = { brightness: 1, contrast: 1, lift: 0 };
/** What the key does: enough to see hands before a dark shirt. */
const USUAL_LIFT = 0.6;

export const pictureLight = createStore<PictureLight>(PLAIN_LIGHT);

export function isPlain({ brightness, contrast, lift }: PictureLight): boolean {
  return brightness === 1 && contrast === 1 && lift === 0;
}

export function liftShadows(): void {
  pictureLight.update((look) => ({ ...look, lift: look.lift === 0 ? USUAL_LIFT : 0 }));
}

/** The exponent that brings a share of brightness up: 1 leaves it, less than 1 lifts dark parts most. */
export function exponentOf(lift: number): number {
  return 1 - 0.6 * lift;
}

/** Id of the page's element that lifts dark parts. */
export const LIFT_ID = 'lift-shadows';

/** The look as a filter of a canvas's element, so that the pixels on it stay those of the clip; empty when plain. */
export function filterOf(look: PictureLight): string {
  const { brightness, contrast, lift } = look;
  const lifted = lift === 0 ? '' : ` url(#${LIFT_ID})`;
  return isPlain(look) ? '' : `brightness(${brightness}) contrast(${contrast})${lifted}`;
}
