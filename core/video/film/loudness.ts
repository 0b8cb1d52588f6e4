import { say } from '../../model/say.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { endedWell, processError, runFfmpeg } from '../process/run-ffmpeg.ts';
import { FILM_SAMPLE_RATE } from './assemble-sound.ts';

/** How loud a video is: EBU R 128's method, with the level that phones and the web are used to. */
export const FILM_LOUDNESS = { lufs: -16, peakDb: -1.5, rangeLu: 20 } as const;
/** Below this nobody has spoken; made louder, the noise of the room would fill the video. */
const FAINTEST_LUFS = -55;
const LIMIT_MS = 60 * 60_000;

/** What ffmpeg's loudnorm measured. LUFS, dB of true peak, LU. */
export interface Loudness {
  readonly lufs: number;
  readonly peakDb: number;
  readonly rangeLu: number;
  readonly thresholdLufs: number;
  readonly offsetLu: number;
}

const target = `I=${FILM_LOUDNESS.lufs}:TP=${FILM_LOUDNESS.peakDb}:LRA=${FILM_LOUDNESS.rangeLu}`;

/** How to read a file of bare samples (`assembleSound`). */
export const rawSoundOptions: readonly string[] = ['-f', 's16le', '-ar', String(FILM_SAMPLE_RATE), '-ac', '1'];

/** Measures such a file: the first of two passes. null where it is silent, or as good as. */
export async function readLoudness(ffmpeg: Ffmpeg, file: string, signal?: AbortSignal): Promise<Loudness | null> {
  const filter = ['-af', `loudnorm=${target}:print_format=json`, '-f', 'null', '-'];
  const { end } = await runFfmpeg(ffmpeg, ['-v', 'info', ...rawSoundOptions, '-i', `file:${file}`, ...filter], {
    signal,
    timeLimitMs: LIMIT_MS,
  });
  if (!endedWell(end)) throw processError(end, say`The loudness of the sound could not be measured. Try again.`);
  return parseLoudness(end.stderrTail);
}

/** Reads loudnorm's report. Silence is "-inf" there. @throws Error when there is no report. */
export function parseLoudness(report: string): Loudness | null {
  const number = (field: string): number => {
    const found = new RegExp(`"${field}" : "(-?(?:inf|[0-9.]+))"`).exec(report)?.[1];
    if (found === undefined) throw new Error(`loudnorm told no ${field}`);
    return found.endsWith('inf') ? -Infinity : Number(found);
  };
  const loudness = {
    lufs: number('input_i'),
    peakDb: number('input_tp'),
    rangeLu: number('input_lra'),
    thresholdLufs: number('input_thresh'),
    offsetLu: number('target_offset'),
  };
  return loudness.lufs < FAINTEST_LUFS || !Number.isFinite(loudness.peakDb) ? null : loudness;
}

/**
 * The filter of the second pass; none for silence. The sample rate is told anew, as loudnorm works at another; so is the
 * one channel, which ffmpeg 5 forgets where the level varies.
 */
export function loudnessFilter(loudness: Loudness | null): string | null {
  if (loudness === null) return null;
  const { lufs, peakDb, rangeLu, thresholdLufs, offsetLu } = loudness;
  const measured = [`measured_I=${lufs}`, `measured_TP=${peakDb}`, `measured_LRA=${rangeLu}`];
  measured.push(`measured_thresh=${thresholdLufs}`, `offset=${offsetLu}`, 'linear=true');
  return `loudnorm=${target}:${measured.join(':')},aresample=${FILM_SAMPLE_RATE},aformat=channel_layouts=mono`;
}
