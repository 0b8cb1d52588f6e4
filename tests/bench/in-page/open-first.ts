/**
 * Presses the button that brings the chosen file in, and the one that opens the clip the moment it is there. Resolves
 * with the milliseconds until the first picture was drawn on the canvas. Runs in the page.
 */
export function openFirst(names: {
  readonly press: string;
  readonly open: string;
  readonly limit: number;
}): Promise<number> {
  const find = (name: string): HTMLElement | undefined =>
    [...document.querySelectorAll('button')].find(
      (button) => (button.getAttribute('aria-label') ?? button.textContent.trim()) === name,
    );
  return new Promise((resolve, reject) => {
    const { listeners, readCode } = window.bench;
    let opened = false;
    const open = (): void => {
      const button = opened ? undefined : find(names.open);
      if (button === undefined) return;
      opened = true;
      button.click();
    };
    const observer = new MutationObserver(open);
    const painted = (seen: { readonly quality: string }): void => {
      if (seen.quality === 'none') return;
      readCode();
      end();
      resolve(performance.now() - start);
    };
    const timer = setTimeout(() => {
      end();
      reject(new Error('no picture came'));
    }, names.limit);
    const end = (): void => {
      clearTimeout(timer);
      observer.disconnect();
      listeners.delete(painted);
    };
    listeners.add(painted);
    observer.observe(document, { subtree: true, childList: true });
    const start = performance.now();
    find(names.press)?.click();
  });
}
