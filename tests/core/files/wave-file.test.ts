import { appendFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { repairWave, waveFile, waveHeader, writeWave, WAVE_HEADER_BYTES } from '../../../core/files/wave-file.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';

const ramp = Float32Array.from({ length: 100 }, (_, at) => at / 50 - 1);

test('a header says rate, one channel, 16 bits and how much follows (RIFF WAVE, byte by byte)', () => {
  const header = Buffer.from(waveHeader(200, 48_000));
  expect(header.length).toBe(WAVE_HEADER_BYTES);
  expect(header.toString('latin1', 0, 4) + header.toString('latin1', 8, 16) + header.toString('latin1', 36, 40)).toBe(
    'RIFFWAVEfmt data',
  );
  expect([header.readUInt32LE(4), header.readUInt32LE(40)]).toEqual([236, 200]);
  expect([20, 22, 32, 34].map((at) => header.readUInt16LE(at))).toEqual([1, 1, 2, 16]);
  expect([header.readUInt32LE(24), header.readUInt32LE(28)]).toEqual([48_000, 96_000]);
});

test('samples are written as they are, and cut at full scale', () => {
  const bytes = Buffer.from(waveFile(Float32Array.of(0, 0.5, -1, 2), 48_000));
  expect([0, 2, 4, 6].map((at) => bytes.readInt16LE(WAVE_HEADER_BYTES + at))).toEqual([0, 16_384, -32_767, 32_767]);
});

test('a recording that broke off is whole again: what is there is said, half a sample is cut', async () => {
  const path = join(temporaryFolder(), 'take.wav');
  await writeWave(path, ramp, 48_000);
  const whole = readFileSync(path);
  writeFileSync(path, Buffer.concat([Buffer.from(waveHeader(0, 48_000)), whole.subarray(WAVE_HEADER_BYTES)]));
  appendFileSync(path, Buffer.of(7));
  expect(await repairWave(path, 48_000)).toBe(100);
  expect(readFileSync(path).equals(whole)).toBe(true);
});

test('one that broke off within its header has no sound', async () => {
  const path = join(temporaryFolder(), 'take.wav');
  writeFileSync(path, Buffer.from(waveHeader(0, 48_000)).subarray(0, 20));
  expect(await repairWave(path, 48_000)).toBe(0);
  expect(readFileSync(path).equals(Buffer.from(waveHeader(0, 48_000)))).toBe(true);
});
