import type { Order } from '../in-page/contract.ts';

/** What the hand does, decided beforehand. All pure; `random` gives numbers in [0, 1). */

/** Longest wait for one picture, ms: a plain decoder has long found it by then. */
const LIMIT = 20_000;
/** Frames before and after a key frame where a wrong entry shows. */
export const AROUND_KEY = 4;
/** Frames of a step with Shift. */
export const LONG_STEP = 10;

export function jumpTo(
  target: number,
  options: { readonly pause?: number; readonly want?: Order['want'] } = {},
): Order {
  return { act: { kind: 'jump' }, target, want: options.want ?? 'any', pause: options.pause ?? 0, limit: LIMIT };
}

/** A press of an arrow key at `from`; `by` is ±1, or ±10 with Shift. */
export function stepFrom(from: number, by: 1 | -1 | 10 | -10, pause = 0): Order {
  const act = { kind: 'key', key: by > 0 ? 'ArrowRight' : 'ArrowLeft', shift: Math.abs(by) === LONG_STEP } as const;
  return { act, target: from + by, want: 'any', pause, limit: LIMIT };
}

/**
 * `count` frames out of [from, to], each in a part of its own, in random order: no two are near each other, so that what
 * was fetched around one is of no use to the next.
 */
export function spreadFrames(from: number, to: number, count: number, random: () => number): readonly number[] {
  const part = (to - from + 1) / count;
  const frames = Array.from({ length: count }, (_, place) => Math.floor(from + (place + random()) * part));
  return shuffled([...new Set(frames)], random);
}

/** Steps of a hand from some places of the clip: on, back, and on by ten. */
export function stepOrders(frames: number, places: number, pause: number, random: () => number): readonly Order[] {
  const [run, long] = [6, 3];
  const reach = run + long * LONG_STEP;
  return spreadFrames(reach, frames - 1 - reach, places, random).flatMap((place) => {
    const orders: Order[] = [jumpTo(place, { pause: pause * 3 })];
    const step = (by: 1 | -1 | 10 | -10): void => void orders.push(stepFrom(orders.at(-1)?.target ?? 0, by, pause));
    for (let each = 0; each < run; each += 1) step(1);
    for (let each = 0; each < run; each += 1) step(-1);
    for (let each = 0; each < long; each += 1) step(10);
    return orders;
  });
}

/**
 * At least `total` requests: first and last frame, then on and back over ±4 frames around every key frame, with the sharp
 * pictures just before and on the key, then jumps to anywhere, each with some steps on or back.
 */
export function checkingOrders(
  frames: number,
  keys: readonly number[],
  total: number,
  random: () => number,
): readonly Order[] {
  const last = frames - 1;
  const orders: Order[] = [];
  const at = (): number => orders.at(-1)?.target ?? -1;
  const jump = (target: number): void => void (target === at() || orders.push(jumpTo(target)));
  // Not from 0: the bench may show it already.
  jump(last);
  jump(0);
  for (const key of keys) {
    const [from, to] = [Math.max(0, key - AROUND_KEY), Math.min(last, key + AROUND_KEY)];
    jump(from);
    while (at() < to) orders.push(stepFrom(at(), 1));
    while (at() > from) orders.push(stepFrom(at(), -1));
    for (const edge of [key - 1, key]) if (edge >= 0 && edge !== at()) orders.push(jumpTo(edge, { want: 'sharp' }));
  }
  while (orders.length < total) {
    jump(Math.floor(random() * frames));
    const [direction, steps] = [random() < 0.5 ? -1 : 1, 3 + Math.floor(random() * 10)];
    for (let step = 0; step < steps; step += 1) {
      const by = random() < 0.15 ? ((direction * LONG_STEP) as 10 | -10) : (direction as 1 | -1);
      if (at() + by < 0 || at() + by > last) break;
      orders.push(stepFrom(at(), by));
    }
  }
  return orders;
}

function shuffled<Item>(items: readonly Item[], random: () => number): readonly Item[] {
  return items
    .map((item) => ({ item, place: random() }))
    .toSorted((a, b) => a.place - b.place)
    .map(({ item }) => item);
}
