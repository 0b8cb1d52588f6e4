import type { WebContents } from 'electron';
import { sendWindUp } from './ipc/handle.ts';

/** How long a page may take to hand over what it holds, ms. One that hangs holds nothing that was sent off. */
const LIMIT = 10_000;

/** Asks a page to hand over what it still holds before its window closes. */
export class PageWinding {
  #listens = false;
  #done: ((unfinished: readonly string[]) => void) | null = null;

  /** Follows whether a page is there that listens. */
  follow(contents: WebContents): void {
    const gone = (): void => {
      this.#listens = false;
      this.#done?.([]);
    };
    contents.on('render-process-gone', gone);
    contents.on('destroyed', gone);
    contents.on('did-start-navigation', ({ isMainFrame, isSameDocument }) => {
      if (isMainFrame && !isSameDocument) gone();
    });
  }

  /** The page listens from now on. */
  pageOpened(): void {
    this.#listens = true;
  }

  /** The page holds nothing any more but what is named: the coach is in the middle of it. */
  woundUp(unfinished: readonly string[]): void {
    this.#done?.(unfinished);
  }

  /** Resolves with what is unfinished once the page has handed over all, is gone, or has not answered within the limit. */
  async windUp(contents: WebContents): Promise<readonly string[]> {
    if (!this.#listens || contents.isDestroyed()) return [];
    let limit: ReturnType<typeof setTimeout> | undefined;
    const unfinished = await new Promise<readonly string[]>((resolve) => {
      this.#done = resolve;
      limit = setTimeout(() => resolve([]), LIMIT);
      sendWindUp(contents, true);
    });
    clearTimeout(limit);
    this.#done = null;
    return unfinished;
  }

  /** The window stays open after all. */
  stay(contents: WebContents): void {
    if (!contents.isDestroyed()) sendWindUp(contents, false);
  }
}
