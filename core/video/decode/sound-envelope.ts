import type { SoundEnvelope } from '../../model/sound.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import { ticksToSeconds } from '../../time/rational.ts';
import { readIndexedSource } from '../index/clip-source.ts';
import type { ReadOptions } from '../index/clip-source.ts';
import { inputArguments } from '../process/ffmpeg-arguments.ts';
import { readPictureClock, shiftAt } from '../index/picture-clock.ts';
import type { ClockShift } from '../index/picture-clock.ts';
import { requireSuccess, startFfmpeg } from '../process/run-ffmpeg.ts';

/** Enough to see a strike; what a strip shows has no use for more. */
const SAMPLES_A_SECOND = 8000;
const BIN_SECONDS = 0.005;
const MOST_BINS = 20_000;
/** Sound that is off by less stays; by ffmpeg's own habit it would at up to 0.1 s. Less than a bin, more than rounding. */
const LEAST_MOVED_SECONDS = 0.002;
const LIMIT_MS = 10 * 60_000;
const BYTES_A_SAMPLE = 4;
const LOUDEST = 255;

/**
 * The envelope of a clip's sound over the time of its pictures, in bins of 5 ms (longer for clips of more than 100
 * seconds). Sound before the first picture is left out, where there is none yet it is silent. Each bin stands at the
 * pictures that it is heard with (`readPictureClock`). Null for a clip without sound, or with nothing but silence. Of a
 * broken track what can be decoded counts.
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
  const step = samplesABin / SAMPLES_A_SECOND;

  const clock = await readPictureClock(path, options);
  const begin = from + shiftAt(clock, first.pts);
  const heard = heardBins({ bins, from, step }, begin, clock, index);
  const most = Math.min(MOST_BINS, heard.reduce((latest, bin) => Math.max(latest, bin), 0) + 1);

  // Times are the file's, counted from the first picture: what comes before it is cut off, gaps are filled with silence.
  // The beginning is always 0, because first_pts counts samples of the sound as it is stored.
  const resample = `aresample=${SAMPLES_A_SECOND}:async=1:min_hard_comp=${LEAST_MOVED_SECONDS}:first_pts=0`;
  const filter = `asetpts=PTS-(${begin.toFixed(9)})/TB,${resample}`;
  const args = ['-v', 'error', ...inputArguments(source.path, source.format), '-vn', '-sn', '-dn', '-copyts'];
  args.push('-af', filter, '-ac', '1', '-c:a', 'pcm_f32le', '-f', 'f32le', '-t', (most * step).toFixed(6), '-');
  const run = startFfmpeg(ffmpeg, args, { signal, timeLimitMs: LIMIT_MS, lowPriority: true });
  const sound = new Float32Array(most);
  const read = peakReader(sound, samplesABin);
  for await (const chunk of run.output) read(chunk);
  const end = await run.end;
  // A part of a run that was stopped is no envelope; a broken track is, as far as it goes.
  requireSuccess(end);
  const peaks = heard.map((bin) => sound[bin] ?? 0);
  const loudest = peaks.reduce((highest, peak) => Math.max(highest, peak), 0);
  if (loudest === 0) return null;
  return { from, step, peaks: Uint8Array.from(peaks, (peak) => Math.round((LOUDEST * peak) / loudest)) };
}

/** For each bin of pictures the bin of the sound, read from `begin` (seconds of the sound) on, that is heard with it. */
function heardBins(
  { bins, from, step }: { readonly bins: number; readonly from: number; readonly step: number },
  begin: number,
  clock: readonly ClockShift[],
  { timebase }: ClipIndex,
): readonly number[] {
  return Array.from({ length: bins }, (_, bin) => {
    const seconds = from + bin * step;
    const shift = shiftAt(clock, (seconds * timebase.den) / timebase.num);
    return Math.max(0, Math.round((seconds + shift - begin) / step));
  });
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
