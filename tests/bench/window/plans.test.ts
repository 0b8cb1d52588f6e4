import { describe, expect, test } from 'vitest';
import { seeded } from '../../support/seeded.ts';
import type { Order } from '../in-page/contract.ts';
import { checkingOrders, spreadFrames, stepOrders } from './plans.ts';

/** Where each order comes from is where the one before it went; a key's target must follow from that. */
function checkSteps(orders: readonly Order[], frames: number): void {
  for (const [place, { act, target }] of orders.entries()) {
    expect(target).toBeGreaterThanOrEqual(0);
    expect(target).toBeLessThan(frames);
    if (act.kind === 'jump') continue;
    const by = (act.key === 'ArrowRight' ? 1 : -1) * (act.shift ? 10 : 1);
    expect(target).toBe((orders[place - 1]?.target ?? NaN) + by);
  }
}

describe('the requests that are checked', () => {
  const keys = [0, 250, 480, 2399];
  const orders = checkingOrders(2400, keys, 2000, seeded(1));
  const asked = new Set(orders.map(({ target }) => target));

  test('are at least as many as wanted, and end soon after', () => {
    expect(orders.length).toBeGreaterThanOrEqual(2000);
    expect(orders.length).toBeLessThan(2020);
  });
  test('hold the first, the last and ±4 around every key frame', () => {
    const edges = keys.flatMap((key) => Array.from({ length: 9 }, (_, place) => key - 4 + place));
    expect(edges.filter((frame) => frame >= 0 && frame < 2400 && !asked.has(frame))).toEqual([]);
    expect([asked.has(0), asked.has(2399)]).toEqual([true, true]);
  });
  test('never ask for the frame that is shown, and never beyond an end', () => {
    checkSteps(orders, 2400);
    expect(orders.filter(({ target }, place) => target === orders[place - 1]?.target)).toEqual([]);
  });
  test('reach all over the clip', () => {
    const tenths = new Set([...asked].map((frame) => Math.floor(frame / 240)));
    expect(tenths.size).toBe(10);
  });
  test('work for a short clip whose every frame is a key frame', () => {
    const short = checkingOrders(3, [0, 1, 2], 50, seeded(2));
    checkSteps(short, 3);
    expect(new Set(short.map(({ target }) => target))).toEqual(new Set([0, 1, 2]));
  });
});

test('spread frames lie one in each part, in an order that is not theirs', () => {
  const frames = spreadFrames(100, 499, 40, seeded(3));
  expect(frames.toSorted((a, b) => a - b).map((frame) => Math.floor((frame - 100) / 10))).toEqual(
    Array.from({ length: 40 }, (_, part) => part),
  );
  expect(frames).not.toEqual(frames.toSorted((a, b) => a - b));
});

test('more frames than there are give each once', () => {
  expect(spreadFrames(0, 2, 50, seeded(4)).toSorted((a, b) => a - b)).toEqual([0, 1, 2]);
});

test('single steps stay within the clip and never begin at an unknown place', () => {
  const orders = stepOrders(300, 5, 110, seeded(5));
  checkSteps(orders, 300);
  expect(orders[0]?.act.kind).toBe('jump');
  expect(orders.filter(({ act }) => act.kind === 'jump')).toHaveLength(5);
});
