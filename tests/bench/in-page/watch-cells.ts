/** What to wait for on the sheet. */
export interface CellWatch {
  /** How many cells it has; those that lie below the window are scrolled to. */
  readonly cells: number;
  /** ms */
  readonly limit: number;
}

/**
 * Resolves with the milliseconds from when each cell's picture came into sight until something was drawn in it, in the
 * order of the page; null where nothing was. In the page.
 */
export function watchCells({ cells, limit }: CellWatch): Promise<(number | null)[]> {
  const inSight = new Map<Element, number>();
  const drawn = new Map<Element, number>();
  return new Promise((resolve) => {
    const sight = new IntersectionObserver((entries) => {
      for (const { target, isIntersecting, time } of entries)
        if (isIntersecting && !inSight.has(target)) inSight.set(target, time);
    });
    const stills = (): Element[] => [...document.querySelectorAll('[data-place="still"] canvas')];
    const look = (): void => {
      for (const canvas of stills()) {
        sight.observe(canvas);
        if (canvas.hasAttribute('data-still') && !drawn.has(canvas)) drawn.set(canvas, performance.now());
      }
      // Those further down, one after the other, as a hand scrolls.
      const waiting = stills().filter((canvas) => !drawn.has(canvas));
      if (stills().length >= cells && waiting.every((canvas) => !inSight.has(canvas)))
        waiting[0]?.scrollIntoView({ block: 'end' });
      if (stills().length >= cells && waiting.length === 0) end();
    };
    const end = (): void => {
      clearTimeout(timer);
      clearInterval(again);
      changes.disconnect();
      sight.disconnect();
      resolve(
        stills().map((canvas) => {
          const [from, to] = [inSight.get(canvas), drawn.get(canvas)];
          return from === undefined || to === undefined ? null : Math.max(0, to - from);
        }),
      );
    };
    const changes = new MutationObserver(look);
    changes.observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ['data-still'] });
    const again = setInterval(look, 50);
    const timer = setTimeout(end, limit);
  });
}
