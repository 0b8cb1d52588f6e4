import { expect, test } from 'vitest';
import type { ClipIndex, ShownFrame } from '../../../core/time/clip-index.ts';
import { keepFrames, numbersDiffer, settleFrames, settleIndex } from '../../../core/time/settle-index.ts';
import { shownFrames } from '../../../core/time/shown-frames.ts';
import { seeded } from '../../support/seeded.ts';
import { clipIndexOf } from '../../support/clip-index.ts';

/** Frames at given times; every twelfth is a key picture and the last one stays for 9 ticks. */
function tableOf(times: readonly number[]): readonly ShownFrame[] {
  return shownFrames(times.map((pts, place) => ({ pts, duration: 9, key: place % 12 === 0, hidden: false }))).frames;
}

function indexOf(times: readonly number[]): ClipIndex {
  return clipIndexOf(times, 300, { nominalRate: { num: 30, den: 1 }, frames: tableOf(times) });
}

const steady = (count: number): number[] => Array.from({ length: count }, (_, place) => place * 10);
const timesOf = (frames: readonly ShownFrame[]): number[] => frames.map(({ pts }) => pts);
const byTime = (times: Iterable<number>): number[] => [...times].sort((a, b) => a - b);
const numbersMissing = (missing: readonly boolean[]): number[] => missing.flatMap((is, place) => (is ? [place] : []));

test('a decode that delivers what the table lists changes nothing', () => {
  const table = tableOf(steady(30));
  for (const errors of [false, true]) {
    const { frames, missing } = settleFrames(table, { delivered: timesOf(table).toReversed(), errors });
    expect(frames).toEqual(table);
    expect(missing).not.toContain(true);
    expect(numbersDiffer(table, frames)).toBe(false);
  }
});

test('without errors the decode wins; with errors no frame loses its number, not even before the first delivered', () => {
  const table = tableOf(steady(30));
  const random = seeded(7);
  for (let trial = 0; trial < 100; trial += 1) {
    const delivered = timesOf(table).filter(() => random() < 0.7);
    if (delivered.length === 0) continue;
    const clean = settleFrames(table, { delivered, errors: false });
    expect(timesOf(clean.frames)).toEqual(delivered);
    expect(clean.missing).not.toContain(true);

    const broken = settleFrames(table, { delivered, errors: true });
    expect(broken.frames).toEqual(table);
    expect(broken.missing).toEqual(timesOf(table).map((pts) => !delivered.includes(pts)));
  }
});

test('a delivered picture that the table does not list takes its place by time, once', () => {
  const table = tableOf(steady(5));
  for (const errors of [false, true]) {
    const { frames, missing } = settleFrames(table, { delivered: [25, 40, 25, 30, 20, 10, 0], errors });
    expect(timesOf(frames)).toEqual([0, 10, 20, 25, 30, 40]);
    expect(frames[3]).toEqual({ pts: 25, ticks: 5, key: false });
    expect(missing).not.toContain(true);
  }
});

test('a decode that delivers nothing leaves the table, all of it missing', () => {
  const table = tableOf(steady(4));
  for (const errors of [false, true]) {
    const { frames, missing } = settleFrames(table, { delivered: [], errors });
    expect(frames).toEqual(table);
    expect(numbersMissing(missing)).toEqual([0, 1, 2, 3]);
  }
});

test('frames carry their key mark and last duration over unless times differed; settling twice is settling once', () => {
  const random = seeded(19);
  for (let trial = 0; trial < 100; trial += 1) {
    const times = steady(40).filter(() => random() < 0.9);
    const table = tableOf(times);
    const delivered = byTime(new Set([...times.filter(() => random() < 0.8), Math.floor(random() * 400)]));
    const pass = { delivered, errors: random() < 0.5 };
    const once = settleFrames(table, pass);
    const differed = !pass.errors && numbersDiffer(table, once.frames);
    for (const { pts, key } of once.frames)
      expect(key).toBe(!differed && table.some((frame) => frame.pts === pts && frame.key));
    expect(settleFrames(once.frames, pass)).toEqual(once);
  }
});

test('damage is what is missing and what is spoilt, and nothing that was known before', () => {
  const index: ClipIndex = { ...indexOf(steady(20)), damage: [{ from: 0, to: 19 }] };
  const delivered = timesOf(index.frames).filter((pts) => pts !== 50);
  const settled = settleIndex(index, { delivered, errors: true }, [
    { first: 60, last: 79 },
    { first: 180, last: Infinity },
  ]);
  expect(settled.damage).toEqual([
    { from: 5, to: 7 },
    { from: 18, to: 19 },
  ]);
  expect(settled.frames).toEqual(index.frames);
  expect(settleIndex(index, { delivered: timesOf(index.frames), errors: false }).damage).toEqual([]);
});

test('a frame less changes the rate as it changes the frames', () => {
  const index = indexOf(steady(20));
  const settled = settleIndex(index, { delivered: steady(20).filter((pts) => pts !== 50), errors: false });
  expect(settled.variable).toBe(true);
  expect(settled.frames).toHaveLength(19);
});

test('a frame that something hangs on is put back as damaged, and damage stays on its pictures', () => {
  const earlier = indexOf(steady(20));
  const delivered = steady(20).filter((pts) => pts !== 50 && pts !== 60);
  const settled = settleIndex(earlier, { delivered, errors: false }, [{ first: 100, last: 119 }]);
  const kept = keepFrames(settled, earlier, [50, 70, 12345]);
  expect(timesOf(kept.frames)).toEqual(steady(20).filter((pts) => pts !== 60));
  expect(kept.damage).toEqual([
    { from: 5, to: 5 },
    { from: 9, to: 10 },
  ]);
  expect(keepFrames(settled, earlier, [70])).toBe(settled);
});

test('numbers differ when a frame is new, gone or at another time, not when only its key mark differs', () => {
  const table = tableOf(steady(5));
  expect(numbersDiffer(table, table.slice(1))).toBe(true);
  expect(numbersDiffer(table.slice(0, 4), table)).toBe(true);
  expect(numbersDiffer(table, tableOf([0, 10, 21, 30, 40]))).toBe(true);
  expect(
    numbersDiffer(
      table,
      table.map((frame) => ({ ...frame, key: true })),
    ),
  ).toBe(false);
});
