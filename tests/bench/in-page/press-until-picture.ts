/** Which button to press, which to press as soon as it is there, and which picture to wait for. */
export interface FirstPicture {
  readonly press: string;
  readonly then: string | null;
  readonly wait: 'looked' | 'painted';
  /** ms */
  readonly limit: number;
}

/** Presses, and resolves with the milliseconds until the first picture stood on its canvas; null: none came. In the page. */
export function pressUntilPicture({ press, then, wait, limit }: FirstPicture): Promise<number | null> {
  const find = (name: string): HTMLElement | undefined =>
    [...document.querySelectorAll('button')].find(
      (button) => (button.getAttribute('aria-label') ?? button.textContent.trim()) === name,
    );
  return new Promise((resolve, reject) => {
    const { listeners, readCode } = window.bench;
    let pressed = false;
    const pressNext = (): void => {
      const button = pressed || then === null ? undefined : find(then);
      if (button === undefined) return;
      pressed = true;
      button.click();
    };
    const observer = new MutationObserver(pressNext);
    const look = (seen: { readonly kind: string; readonly quality: string }): void => {
      if (seen.kind !== wait || seen.quality === 'none') return;
      if (wait === 'painted') readCode();
      end();
      resolve(performance.now() - start);
    };
    const timer = setTimeout(() => {
      end();
      resolve(null);
    }, limit);
    const end = (): void => {
      clearTimeout(timer);
      observer.disconnect();
      listeners.delete(look);
    };
    listeners.add(look);
    observer.observe(document, { subtree: true, childList: true });
    const start = performance.now();
    const button = find(press);
    if (button !== undefined) return button.click();
    end();
    reject(new Error(`the page has no button "${press}"`));
  });
}
