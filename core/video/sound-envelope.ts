import type { SoundEnvelope } from '../model/sound.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import { ticksToSeconds } from '../time/rational.ts';
import { readIndexedSource } from './clip-source.ts';
import type { ReadOptions } from './clip-source.ts';
import { inputArguments } from './ffmpeg-arguments.ts';
import { requireRun, startFfmpeg } from './run-ffmpeg.ts';

/** Enough to see a strike; what a strip shows has no use for more. */
const SAMPLES_A_SECOND = 8000;
const BIN_SECONDS = 0.005;
const MOST_BINS = 20_000;
const LIMIT_MS = 10 * 60_000;
const BYTES_A_SAMPLE = 4;
const LOUDEST = 255;

/**
 * The envelope of a clip's sound over the time of its pictures, in bins of 5 ms (longer for clips of more than 100
 * seconds). Sound before the first picture is left out, where there is none yet it is silent. Null for a clip without
 * sound, or with nothing but silence. Of a broken track what can be decoded counts.
 *
 * @throws AppError as `readIndexedSource`, and `cancelled`, `timed-out`, `ffmpeg-missing`.
 */
export async function readSoundEnvelope(
  path: string,
  index: ClipIndex,
  options: ReadOptions,
): Promise<SoundEnvelope | null> {
  if (!index.sound) return null;
  const { ffmpeg, signal } = options;
  const source = await readIndexedSource(path, index, options);
  const [first, last] = [index.frames[0], index.frames.at(-1)];
  if (first === undefined || last === undefined) return null;
  const from = ticksToSeconds(first.pts, index.timebase);
  const seconds = ticksToSeconds(last.pts + last.ticks - first.pts, index.timebase);
  const samplesABin = Math.max(
    Math.round(BIN_SECONDS * SAMPLES_A_SECOND),
    Math.ceil((seconds * SAMPLES_A_SECOND) / MOST_BINS),
  );
  const bins = Math.max(1, Math.ceil((seconds * SAMPLES_A_SECOND) / samplesABin));

  // Times stay those of the file; the filter fills gaps with silence and begins at the first picture, to the sample.
  const begin = Math.round(from * SAMPLES_A_SECOND);
  const filter = `aresample=${SAMPLES_A_SECOND}:async=1:first_pts=${begin}`;
  const args = ['-v', 'error', ...inputArguments(source.path, source.format), '-vn', '-sn', '-dn', '-copyts'];
  args.push('-af', filter, '-ac', '1', '-c:a', 'pcm_f32le', '-f', 'f32le', '-t', seconds.toFixed(6), '-');
  const run = startFfmpeg(ffmpeg, args, { signal, timeLimitMs: LIMIT_MS, lowPriority: true });
  const peaks = new Float32Array(bins);
  const read = peakReader(peaks, samplesABin);
  for await (const chunk of run.output) if (chunk instanceof Uint8Array) read(chunk);
  const end = await run.end;
  // A part of a run that was stopped is no envelope; a broken track is, as far as it goes.
  requireRun(end);
  const most = peaks.reduce((highest, peak) => Math.max(highest, peak), 0);
  if (most === 0) return null;
  return {
    from: begin / SAMPLES_A_SECOND,
    step: samplesABin / SAMPLES_A_SECOND,
    peaks: Uint8Array.from(peaks, (peak) => Math.round((LOUDEST * peak) / most)),
  };
}

/** Takes bytes as they come, whole samples or not, and keeps the loudest of each bin. */
function peakReader(peaks: Float32Array, samplesABin: number): (chunk: Uint8Array) => void {
  const rest = new Uint8Array(BYTES_A_SAMPLE);
  const sample = new DataView(rest.buffer);
  let [held, count] = [0, 0];
  return (chunk) => {
    for (const byte of chunk) {
      rest[held] = byte;
      held += 1;
      if (held < BYTES_A_SAMPLE) continue;
      held = 0;
      const bin = Math.floor(count / samplesABin);
      count += 1;
      if (bin < peaks.length) peaks[bin] = Math.max(peaks[bin] ?? 0, Math.abs(sample.getFloat32(0, true)) || 0);
    }
  };
}
