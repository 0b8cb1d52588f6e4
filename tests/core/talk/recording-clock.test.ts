import { expect, test } from 'vitest';
import { recordingClock } from '../../../core/talk/recording-clock.ts';
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
