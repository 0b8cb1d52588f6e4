import { appendFileSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { WAVE_HEADER_BYTES } from '../../../core/files/wave-file.ts';
import type { TalkEvent } from '../../../core/model/talk.ts';
import { readTakes } from '../../../core/talk-file/read-takes.ts';
import { takeFiles } from '../../../core/talk-file/take-files.ts';
import { beginTake } from '../../../core/talk-file/take-recorder.ts';
import { seeded } from '../../support/seeded.ts';
import { lasting, sized } from '../../support/sized.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { killAtRandom } from '../book/children/kill-at-random.ts';
import { firstTake, frame, pane } from '../talk/sample-talk.ts';

const SECOND = 48_000;
const ramp = (from: number, count: number): Int16Array =>
  Int16Array.from({ length: count }, (_, at) => (from + at) % 30_000);
const shown: TalkEvent = { at: 0, kind: 'show', panes: [pane(0)] };
const stepped = (at: number): TalkEvent => ({ at, kind: 'frame', pane: 0, frame: frame(at) });

test('a take that was ended is read as it was recorded, sample by sample', async () => {
  const folder = temporaryFolder();
  const recorder = await beginTake(folder, true);
  await recorder.events([shown]);
  // Not waited for one by one: they keep their order all the same.
  await Promise.all([
    ...Array.from({ length: 20 }, (_, chunk) => recorder.sound(ramp((chunk * SECOND) / 10, SECOND / 10))),
    recorder.events([stepped(700), stepped(1500)]),
  ]);
  await recorder.end();
  expect(await readTakes(folder)).toEqual([
    { length: 2000, sound: { file: 'take-0000.wav', start: 0 }, events: [shown, stepped(700), stepped(1500)] },
  ]);
  const bytes = readFileSync(takeFiles(folder, 0).sound);
  expect(bytes.subarray(WAVE_HEADER_BYTES).equals(Buffer.from(ramp(0, 2 * SECOND).buffer))).toBe(true);
});

test('takes follow one another and never write into an earlier one', async () => {
  const folder = temporaryFolder();
  for (let take = 0; take < 3; take++) {
    const recorder = await beginTake(folder, false);
    expect(recorder.take).toBe(take);
    await recorder.events([shown]);
    await recorder.time(1000 + take);
    await recorder.end();
  }
  expect((await readTakes(folder)).map((take) => take?.length)).toEqual([1000, 1001, 1002]);
});

test('without a microphone the take is as long as it was recorded, with all that was shown', async () => {
  const folder = temporaryFolder();
  const recorder = await beginTake(folder, false);
  await recorder.events(firstTake.events);
  await recorder.time(10_000);
  await recorder.end();
  expect(await readTakes(folder)).toEqual([{ ...firstTake, sound: null }]);
  await expect(recorder.sound(ramp(0, 10))).rejects.toThrow();
});

test('what is shown after the last sample is left out; half a line and half a sample are too', async () => {
  const folder = temporaryFolder();
  const recorder = await beginTake(folder, true);
  await recorder.events([shown, stepped(400), stepped(1200)]);
  await recorder.sound(ramp(0, SECOND));
  const { log, sound } = takeFiles(folder, 0);
  appendFileSync(log, '{"at":1300,"kind":"fra');
  appendFileSync(sound, Buffer.of(1));
  expect(await readTakes(folder)).toMatchObject([{ length: 1000, events: [shown, stepped(400)] }]);
  expect(statSync(sound).size).toBe(WAVE_HEADER_BYTES + 2 * SECOND);
  await recorder.end();
});

test('a take of which nothing is left to be seen keeps its number free', async () => {
  const folder = temporaryFolder();
  writeFileSync(takeFiles(folder, 0).log, '');
  const recorder = await beginTake(folder, false);
  await recorder.events([shown]);
  await recorder.time(500);
  await recorder.end();
  expect(await readTakes(folder)).toMatchObject([null, { length: 500 }]);
});

test(
  'of a recording that is killed (kill -9) all is there that was handed over, sound and what was shown',
  { timeout: lasting(60_000) },
  async () => {
    const random = seeded(31);
    for (let round = 0; round < sized(3, 12); round++) {
      const folder = temporaryFolder();
      const child = join(import.meta.dirname, 'children', 'record-take.ts');
      const { lines, signal, stderr } = await killAtRandom(child, [folder], 50 + random() * 400);
      expect({ signal, stderr, some: lines.length > 0 }).toEqual({ signal: 'SIGKILL', stderr: '', some: true });
      const acknowledged = Number(lines.at(-1));
      const [take] = await readTakes(folder);
      if (take === null || take === undefined) throw new Error('the take is gone');
      // A tenth of a second is handed over at a time: one more may be there that was not acknowledged.
      expect(take.length).toBeGreaterThanOrEqual(acknowledged);
      expect(take.length).toBeLessThanOrEqual(acknowledged + 200);
      const bytes = readFileSync(takeFiles(folder, 0).sound);
      expect(bytes.readUInt32LE(40)).toBe(bytes.length - WAVE_HEADER_BYTES);
      const count = (bytes.length - WAVE_HEADER_BYTES) / 2;
      expect(bytes.subarray(WAVE_HEADER_BYTES).equals(Buffer.from(ramp(0, count).buffer))).toBe(true);
      const times = take.events.slice(1).map(({ at }) => at);
      expect(times).toEqual(Array.from({ length: times.length }, (_, step) => step * 100));
      expect(times.length).toBeGreaterThanOrEqual(acknowledged / 100);
    }
  },
);
