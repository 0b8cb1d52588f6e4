declare global {
  interface Navigator {
    /** Chromium's; says whether keys or presses wait that the page has not been told of yet. */
    readonly scheduling?: { isInputPending?(): boolean };
  }
}

/** A page that nobody sees paints nothing; then this long has to do, ms. */
const UNSEEN = 100;

/**
 * Settles once the page has handled the keys and presses that had reached it: each is told to the page before the next
 * picture of it, and none waits any more.
 */
export async function inputHandled(): Promise<void> {
  do await nextPicture();
  while (typeof navigator !== 'undefined' && navigator.scheduling?.isInputPending?.() === true);
}

function nextPicture(): Promise<void> {
  if (typeof requestAnimationFrame === 'undefined') return Promise.resolve();
  return new Promise((resolve) => {
    const unseen = setTimeout(resolve, UNSEEN);
    // The frame after the next: what came before it has run, and its own tasks too.
    requestAnimationFrame(() => {
      setTimeout(() => {
        clearTimeout(unseen);
        resolve();
      });
    });
  });
}
