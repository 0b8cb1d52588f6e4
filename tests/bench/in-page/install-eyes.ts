import type { Place } from '../clips/code-strip.ts';
import type { BenchInPage, Checked, Seen } from './contract.ts';

/** Puts the watching half of `window.bench` into the page. Runs there: it uses nothing from outside itself. */
export function installEyes(): void {
  const seen: Seen[] = [];
  const listeners = new Set<(seen: Seen) => void>();
  const canvas = (): HTMLCanvasElement | null => document.querySelector('[role="application"] canvas[data-shown]');

  const observer = new MutationObserver((records) => {
    const at = performance.now();
    const told = new Set<string>();
    for (const { target, attributeName } of records) {
      if (!(target instanceof HTMLCanvasElement) || attributeName === null) continue;
      // A picture outside the bench is one of a file that is only being looked at.
      const onBench = target.closest('[role="application"]') !== null;
      const kind = attributeName === 'data-arrived' ? 'arrived' : onBench ? 'painted' : 'looked';
      const value = kind === 'arrived' ? target.dataset['arrived'] : target.dataset['shown'];
      // Frame and quality are set one after the other for one paint.
      if (value === undefined || told.has(`${kind} ${value}`)) continue;
      told.add(`${kind} ${value}`);
      const entry: Seen = { kind, index: Number(value), quality: target.dataset['quality'] ?? '', at };
      seen.push(entry);
      if (kind === 'looked') target.getContext('2d')?.getImageData(0, 0, 1, 1);
      if (kind !== 'arrived') for (const listener of listeners) listener(entry);
    }
  });
  observer.observe(document, { subtree: true, attributeFilter: ['data-shown', 'data-quality', 'data-arrived'] });

  /** Mean green of 3 x 3 device pixels around each cell's middle, taken from one small piece of the canvas. */
  function greys(source: HTMLCanvasElement, cells: readonly Place[]): number[] | null {
    const context = source.getContext('2d');
    const { zoom, left, top } = source.dataset;
    if (context === null || zoom === undefined || left === undefined || top === undefined) return null;
    const ratio = source.width / Math.max(1, source.clientWidth);
    const places = cells.map(({ x, y }) => ({
      x: Math.round((x * Number(zoom) + Number(left)) * ratio),
      y: Math.round((y * Number(zoom) + Number(top)) * ratio),
    }));
    const from = { x: Math.min(...places.map(({ x }) => x)) - 1, y: Math.min(...places.map(({ y }) => y)) - 1 };
    const width = Math.max(...places.map(({ x }) => x)) - from.x + 2;
    const height = Math.max(...places.map(({ y }) => y)) - from.y + 2;
    const { data } = context.getImageData(from.x, from.y, width, height);
    return places.map(({ x, y }) => {
      let sum = 0;
      for (let down = -1; down <= 1; down += 1)
        for (let across = -1; across <= 1; across += 1)
          sum += data[((y - from.y + down) * width + x - from.x + across) * 4 + 1] ?? 0;
      return sum / 9;
    });
  }

  function readCode(): number | null {
    const source = canvas();
    const { cells, least } = window.bench;
    const found = source === null ? null : greys(source, cells);
    if (found === null) return null;
    const bits = cells.length / 2;
    let number = 0;
    for (let bit = 0; bit < bits; bit += 1) {
      const difference = (found[bit] ?? 0) - (found[bits + bit] ?? 0);
      if (Math.abs(difference) < least) return null;
      if (difference > 0) number |= 1 << bit;
    }
    return number;
  }

  let checking: {
    codes: readonly number[];
    paints: number;
    sharp: number;
    wrong: string[];
    wrongCount: number;
  } | null = null;
  listeners.add(({ kind, index, quality }) => {
    if (checking === null || kind !== 'painted') return;
    const code = readCode();
    checking.paints += 1;
    if (quality === 'sharp') checking.sharp += 1;
    if (code === checking.codes[index] && code !== null) return;
    checking.wrongCount += 1;
    if (checking.wrong.length < 20) checking.wrong.push(`frame ${index} (${quality}) showed ${code ?? 'no code'}`);
  });

  const eyes: Partial<BenchInPage> = {
    ...{ cells: [], least: 0, seen, listeners, canvas, readCode },
    forget: () => void seen.splice(0),
    beginChecking(codes) {
      checking = { codes, paints: 0, sharp: 0, wrong: [], wrongCount: 0 };
    },
    endChecking(): Checked {
      const found = checking ?? { paints: 0, sharp: 0, wrong: [], wrongCount: 0 };
      checking = null;
      return { paints: found.paints, sharp: found.sharp, wrong: found.wrong, wrongCount: found.wrongCount };
    },
  };
  window.bench = Object.assign(window.bench ?? {}, eyes);
}
