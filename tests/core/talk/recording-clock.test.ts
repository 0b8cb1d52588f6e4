import { expect, test } from 'vitest';
import { recordingClock, SETTLES_MS } from '../../../core/talk/recording-clock.ts';
import { seeded } from '../../support/seeded.ts';
import { within } from '../../support/within.ts';

test('before any sound has come it is 0', () => {
  expect(recordingClock().at(123_456)).toBe(0);
});

test('samples that a busy page takes late move no time: an instant is told to 2 ms, however they stumble', () => {
  const random = seeded(7);
  const clock = recordingClock();
  const began = 10_000;
  for (let heard = 10; heard <= 60_000; heard += 10) {
    // One in five is taken at once; the others up to 80 ms late, as behind a long task.
    const late = random() < 0.2 ? 0 : random() * 80;
    clock.arrived(heard, began + heard + late);
    if (heard > 500) within(clock.at(began + heard + 100), heard + 100, 2, 'the time');
  }
});

test('a sound card that runs slower or faster than the computer is followed', () => {
  for (const drift of [1 - 200e-6, 1 + 200e-6]) {
    const clock = recordingClock();
    // Half an hour: 360 ms apart at its end.
    for (let heard = 0; heard <= 30 * 60_000; heard += 100) clock.arrived(heard * drift, heard);
    within(clock.at(30 * 60_000), 30 * 60_000 * drift, 2, 'the time at the end');
  }
});

test('after a pause it goes on from what was recorded, in whole milliseconds', () => {
  // 1024 samples at a time are no whole milliseconds.
  const clock = recordingClock((1024 * 7 * 1000) / 48_000);
  expect(clock.at(5000)).toBe(149);
  clock.arrived((1024 * 1000) / 48_000, 6021.3333);
  expect(clock.at(6100)).toBe(249);
});

/** Heaps of 20 ms that are taken up to 60 ms late, one in five at once; from `lostFrom` on, `lost` ms of sound are missing. */
function busyRecording({ lostFrom = Infinity, lost = 0 } = {}) {
  const random = seeded(11);
  const clock = recordingClock();
  let took = -Infinity;
  /** All that comes up to an instant. */
  let next = 20;
  return {
    clock,
    until(now: number) {
      for (; next <= now; next += 20) {
        // One after the other, as they were recorded.
        took = Math.max(took, next + (random() < 0.2 ? 0 : random() * 60));
        clock.arrived(next > lostFrom ? next - lost : next, took);
      }
    },
  };
}

test.each([250, 500])(
  'where %d ms of sound are lost, what is done after it is told by the sound that came after it',
  (lost) => {
    const { clock, until } = busyRecording({ lostFrom: 10_000, lost });
    for (let now = 500; now < 20_000; now += 70) {
      until(now + SETTLES_MS);
      // Just before a loss, the sound that tells may be gone.
      if (now > 9800 && now < 10_000 + lost) continue;
      within(clock.at(now), now < 10_000 ? now : now - lost, 10, `the time of ${String(now)}`);
    }
  },
);

test('who had begun to draw while all came late is told by what comes later', () => {
  const clock = recordingClock();
  for (let heard = 20; heard <= 200; heard += 20) clock.arrived(heard, heard + 70);
  within(clock.at(150), 150, 71, 'as long as nothing else is known');
  for (let heard = 220; heard <= 1000; heard += 20) clock.arrived(heard, heard);
  expect(clock.at(150)).toBe(150);
});

test('a page that stands still for a second, and takes all at once then, loses no time', () => {
  const clock = recordingClock();
  for (let heard = 20; heard <= 5000; heard += 20) clock.arrived(heard, heard);
  for (let heard = 5020; heard <= 6000; heard += 20) clock.arrived(heard, 6000);
  for (const now of [4990, 5300, 5900]) expect(clock.at(now)).toBe(now);
});
