import { monitorEventLoopDelay } from 'node:perf_hooks';
import { expect, onTestFinished, test, vi } from 'vitest';
import {
  openStillEncoder,
  runningEncoders,
  type StillContent,
  type StillEncoder,
} from '../../../core/sheet/still-encoder.ts';
import { encodeStill } from '../../../core/sheet/write-still.ts';
import { seeded } from '../../support/seeded.ts';
import { expectRefused } from '../../support/trouble.ts';

// Seconds of encoding in a thread: on a machine that does other things too, many times that.
vi.setConfig({ testTimeout: 60_000 });

/** One panel of noise, which takes long to encode. */
function content(width: number, format: 'png' | 'jpeg' = 'jpeg'): StillContent {
  const random = seeded(7);
  const rgba = new Uint8Array(720 * 540 * 4).map((_, at) => (at % 4 === 3 ? 255 : Math.floor(random() * 256)));
  const picture = { width: 720, height: 540 };
  return {
    rows: [
      {
        panels: [
          {
            picture: { ...picture, rgba },
            crop: null,
            look: 'plain',
            caption: {
              firstName: 'Mara',
              date: '2026-05-12',
              view: 'Face on',
              club: '7 iron',
              checkpoint: 'Top',
              time: '3.937 s',
            },
            marks: [],
            readings: [{ label: 'Side tilt', value: '−3.4° ± 1.9°' }],
          },
        ],
        comparisons: [],
      },
    ],
    notes: [],
    width,
    format,
    mostBytes: 4_000_000,
  };
}

function encoder(): StillEncoder {
  const opened = openStillEncoder();
  onTestFinished(() => opened.close());
  return opened;
}

test('a still made aside is the still made here', async () => {
  const aside = encoder();
  for (const format of ['jpeg', 'png'] as const) {
    const [there, here] = [await aside.encode(content(640, format)), await encodeStill(content(640, format))];
    expect({ ...there, bytes: Buffer.from(there.bytes).toString('base64') }).toEqual({
      ...here,
      bytes: Buffer.from(here.bytes).toString('base64'),
    });
  }
});

test('trouble comes back as trouble, and the next still is made all the same', async () => {
  const aside = encoder();
  await expectRefused(aside.encode(content(12)), 'bad-arguments', /640 to 4000/);
  expect((await aside.encode(content(700))).width).toBe(700);
});

test('the thread that asked stays free meanwhile', async () => {
  const aside = encoder();
  await aside.encode(content(700)); // started and warm
  const delay = monitorEventLoopDelay({ resolution: 5 });
  const work = aside.encode(content(1000));
  await new Promise((resolve) => setTimeout(resolve, 20)); // the order itself is copied at once
  delay.enable();
  const begun = performance.now();
  await work;
  const took = performance.now() - begun;
  delay.disable();
  // Made here, the longest hold-up would be about all of it.
  expect(delay.max / 1e6).toBeLessThan(took / 2);
});

test('closing ends the thread, and with it what it was at', async () => {
  const aside = encoder();
  await aside.encode(content(700)); // started and warm
  expect(runningEncoders()).toBe(1);
  const begun = performance.now();
  await aside.encode(content(1000));
  const whole = performance.now() - begun;
  const refused = expectRefused(aside.encode(content(1200)), 'cancelled');
  await new Promise((resolve) => setTimeout(resolve, whole / 10)); // well within the work
  await aside.close();
  await refused;
  expect(runningEncoders()).toBe(0);
  await aside.close();
  await expectRefused(aside.encode(content(700)), 'cancelled');
});

test('pixels change hands, shared ones stay, and one picture may stand in two panels', async () => {
  const aside = encoder();
  const order = content(640);
  const [row] = order.rows;
  const [panel] = row?.panels ?? [];
  if (row === undefined || panel === undefined || !('rgba' in panel.picture)) throw new Error('no pixels to hand over');
  const { rgba, ...size } = panel.picture;
  const pool = new Uint8Array(rgba.length + 8);
  pool.set(rgba, 8);
  const shared = pool.subarray(8);
  const of = (pixels: Uint8Array) => ({ ...panel, picture: { ...size, rgba: pixels } });
  const twice = { ...order, rows: [{ ...row, panels: [of(rgba), of(rgba), of(shared)] }] };
  const here = await encodeStill(twice);
  const there = await aside.encode(twice);
  expect(Buffer.from(there.bytes).equals(here.bytes)).toBe(true);
  expect([rgba.length, shared.length]).toEqual([0, pool.length - 8]);
});
