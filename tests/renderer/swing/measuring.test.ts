import { afterEach, expect, test, vi } from 'vitest';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import { ASSUMED_PLACING } from '../../../core/measure/uncertainty/placing.ts';
import type { Source } from '../../../renderer/swing/measuring.ts';

/** The thread, which this machine's tests have none of: it answers when it is told to. */
const threads: Thread[] = [];
class Thread {
  readonly orders: { readonly now: { readonly label: string } }[] = [];
  #hear: ((event: { readonly data: unknown }) => void) | null = null;
  constructor() {
    threads.push(this);
  }
  addEventListener(type: string, listener: (event: { readonly data: unknown }) => void): void {
    if (type === 'message') this.#hear = listener;
  }
  postMessage(order: { readonly now: { readonly label: string } }): void {
    this.orders.push(order);
  }
  terminate(): void {
    this.#hear = null;
  }
  /** Answers the order it has with that order's own label. */
  answer(): void {
    this.#hear?.({ data: { measured: this.orders.at(-1)?.now.label } });
  }
}

afterEach(() => {
  vi.unstubAllGlobals();
  threads.length = 0;
});

const source = (label: string): Source =>
  ({ now: { label, clips: [] }, then: null, goals: SHIPPED_GOALS, placing: ASSUMED_PLACING }) as unknown as Source;

test('of what one asker orders only the last is measured, and another asker is answered as well', async () => {
  vi.stubGlobal('Worker', Thread);
  vi.resetModules();
  const { measureElsewhere } = await import('../../../renderer/swing/measuring.ts');
  const [sheet, page] = [{}, {}];
  const seen: string[] = [];
  const order = (label: string, asker: object): void =>
    void measureElsewhere(source(label), asker).then((measured) => seen.push(measured as unknown as string));
  order('sheet 1', sheet);
  order('page 1', page);
  order('sheet 2', sheet);
  order('page 2', page);
  order('sheet 3', sheet);
  const [thread] = threads;
  for (let answers = 0; answers < 3; answers += 1) {
    thread?.answer();
    await Promise.resolve();
  }
  expect(seen).toEqual(['sheet 1', 'page 2', 'sheet 3']);
  // Nothing waits any more: the next order goes at once.
  order('page 3', page);
  expect(thread?.orders.map(({ now }) => now.label)).toEqual(['sheet 1', 'page 2', 'sheet 3', 'page 3']);
});
