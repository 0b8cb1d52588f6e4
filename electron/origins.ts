/** Where pages of the program come from. No Electron in here, so that tests read it in plain Node. */

/** The window's own page and files: `baybook://window/index.html`. */
export const WINDOW_ORIGIN = 'baybook://window';
export const WINDOW_SCHEME = 'baybook';

/** What a page in the window may ask the network stack for; everything else is refused (window.ts). */
export const OWN_PROTOCOLS: ReadonlySet<string> = new Set([`${WINDOW_SCHEME}:`, 'blob:', 'data:']);
