import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { ffmpegNow } from './coded-clip.ts';

const SAMPLE_RATE = 48_000;
const CLAP_SECONDS = 0.03;
/** A clap is over, and the next may come, after so much quiet. */
const QUIET_SECONDS = 0.2;
/** A clap begins where the sound first reaches this part of the loudest. */
const HEARD = 0.25;

/** Sound of so many milliseconds with a clap at each of the times: a burst that is at its loudest at once. */
export function clapping(times: readonly number[], length: number): Float32Array {
  const samples = new Float32Array((length * SAMPLE_RATE) / 1000);
  for (const time of times)
    for (let step = 0; step < CLAP_SECONDS * SAMPLE_RATE; step++) {
      const fall = Math.exp(-step / (0.006 * SAMPLE_RATE));
      samples[Math.round((time * SAMPLE_RATE) / 1000) + step] =
        0.8 * fall * Math.cos((2 * Math.PI * 1800 * step) / SAMPLE_RATE);
    }
  return samples;
}

/** When claps begin in the sound of a file, milliseconds, found by a plain decode. */
export function clapsIn(ffmpeg: Ffmpeg, path: string): number[] {
  const args = ['-i', path, '-map', '0:a:0', '-ac', '1', '-ar', String(SAMPLE_RATE), '-f', 'f32le', '-'];
  const bytes = ffmpegNow(ffmpeg, args);
  const samples = new Float32Array(bytes.buffer, bytes.byteOffset, bytes.length / 4);
  const limit = HEARD * samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  const claps: number[] = [];
  let last = -Infinity;
  for (const [at, sample] of samples.entries()) {
    if (Math.abs(sample) < limit) continue;
    if (at - last > QUIET_SECONDS * SAMPLE_RATE) claps.push((at * 1000) / SAMPLE_RATE);
    last = at;
  }
  return claps;
}
