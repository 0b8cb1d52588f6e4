import type { RepeatStage } from '../../repeat/state/repeat-check.ts';

/**
 * What fills the window, and what lies under it. A swing and the frame on the bench lie beside the route in the state: they
 * say what a place shows, never which place it is.
 */
export type Route =
  | { readonly at: 'book' }
  /** The lesson sheet of the open swing. */
  | { readonly at: 'sheet' }
  | { readonly at: 'bench' }
  /** Then and now as two large pictures. */
  | { readonly at: 'comparison' }
  | { readonly at: 'goals'; readonly under: Route }
  /** What the lesson of the open swing sends in words, over its sheet. */
  | { readonly at: 'lesson page'; readonly under: Route }
  /** The coach's spoken review of the open swing, over where one is. */
  | { readonly at: 'talk'; readonly under: Route }
  | { readonly at: 'repeat check'; readonly stage: RepeatStage; readonly under: Route }
  /** Settings and help, dialogs: the page under them stays in sight. */
  | { readonly at: 'settings'; readonly under: Route }
  | { readonly at: 'help'; readonly under: Route };

/** A place in the book, under all that may lie over it. */
export type Place = Extract<Route, { readonly at: 'book' | 'sheet' | 'bench' | 'comparison' }>;

export function placeOf(route: Route): Place {
  return 'under' in route ? placeOf(route.under) : route;
}

/** The page that is in sight. */
export function pageOf(route: Route): Exclude<Route, { readonly at: 'settings' | 'help' }> {
  return route.at === 'settings' || route.at === 'help' ? pageOf(route.under) : route;
}

/** Goes to a place in the book; what lies over it stays. */
export function withPlace(route: Route, at: Place['at']): Route {
  return 'under' in route ? { ...route, under: withPlace(route.under, at) } : { at };
}
