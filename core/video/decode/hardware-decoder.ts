import type { FrameSpan } from '../../model/frame.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import { entryFrame } from '../../time/frame-table.ts';
import type { ClipSource } from '../index/clip-source.ts';
import { entrySeconds } from '../index/entry-point.ts';
import { inputArguments, keepTimesArguments } from '../process/ffmpeg-arguments.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { requireSuccess, runFfmpeg } from '../process/run-ffmpeg.ts';
import { selectFilter } from './picture-filter.ts';

/** A way for ffmpeg to decode pictures. */
export interface DecoderChoice {
  readonly name: string;
  /** What it is told before its input. */
  readonly args: readonly string[];
}

/** What came of a decoder on some pictures of a clip. Times are those of both for the same pictures, ms. */
export type Compared =
  /** `late`: a run took longer than it may, perhaps for what else the machine had to do. */
  | { readonly ran: false; readonly late: boolean }
  | { readonly ran: true; readonly equal: boolean; readonly ms: number; readonly softwareMs: number };

/** Pictures of a group that are compared: enough for every kind of picture in it to come. */
const GROUP_FRAMES = 24;
/** Where in the clip: its parts may be of different make. */
const PLACES = [0, 0.5, 1] as const;
const LIMIT_MS = 20_000;
/** Less of the software's time than this; else what is won is not worth another decoder. */
const WORTH_PART = 0.8;

const SOFTWARE: DecoderChoice = { name: 'software', args: [] };

/** A decoder of the hardware by the name that ffmpeg has for it. */
export function hardwareChoice(name: string): DecoderChoice {
  return { name, args: ['-hwaccel', name] };
}

/** Those that this ffmpeg was built for, whether or not the machine has them. @throws AppError as `requireSuccess`. */
export async function listHardware(ffmpeg: Ffmpeg, signal?: AbortSignal): Promise<readonly DecoderChoice[]> {
  const { output, end } = await runFfmpeg(ffmpeg, ['-v', 'error', '-hwaccels'], { signal, timeLimitMs: LIMIT_MS });
  requireSuccess(end);
  if (end.exitCode !== 0) return [];
  const lines = output.toString('latin1').split('\n').slice(1);
  // These two are no hardware: the one is the software, the other falls back to it in silence.
  const names = lines.map((line) => line.trim()).filter((name) => /^\w+$/.test(name));
  return names.filter((name) => name !== 'none' && name !== 'auto').map(hardwareChoice);
}

/**
 * Holds a decoder's pictures against the software's, bit for bit, on some groups of a clip. One that says anything, fails or
 * takes too long has not run. Of one whose pictures differ the first difference ends it.
 */
export async function compareDecoder(
  choice: DecoderChoice,
  source: ClipSource,
  index: ClipIndex,
  options: {
    readonly ffmpeg: Ffmpeg;
    readonly signal?: AbortSignal;
    /** Awaited before each run. */
    readonly giveWay?: () => Promise<void>;
    /** Of each run, ms; 20 s when not given. */
    readonly limitMs?: number;
  },
): Promise<Compared> {
  let [ms, softwareMs] = [0, 0];
  for (const group of groupsOf(index)) {
    await options.giveWay?.();
    const tried = await sumsOf(choice, source, index, group, options);
    if ('late' in tried) return { ran: false, late: tried.late };
    const own = await sumsOf(SOFTWARE, source, index, group, options);
    if ('late' in own) return { ran: false, late: own.late };
    ms += tried.ms;
    softwareMs += own.ms;
    if (tried.sums !== own.sums) return { ran: true, equal: false, ms, softwareMs };
  }
  return { ran: true, equal: true, ms, softwareMs };
}

/** Whether pictures are the same and come sooner. */
export function isWorthUsing(compared: Compared): boolean {
  return compared.ran && compared.equal && compared.ms < WORTH_PART * compared.softwareMs;
}

function groupsOf(index: ClipIndex): readonly FrameSpan[] {
  const last = index.frames.length - 1;
  const starts = PLACES.map((part) => entryFrame(index, Math.round(part * last)) ?? 0);
  return [...new Set(starts)].map((from) => ({ from, to: Math.min(last, from + GROUP_FRAMES - 1) }));
}

/** The checksums of a span's pictures with their times; else it did not go without a word, or came too late. */
async function sumsOf(
  choice: DecoderChoice,
  source: ClipSource,
  index: ClipIndex,
  { from, to }: FrameSpan,
  how: { readonly ffmpeg: Ffmpeg; readonly signal?: AbortSignal; readonly limitMs?: number },
): Promise<{ readonly sums: string; readonly ms: number } | { readonly late: boolean }> {
  const { ffmpeg, signal, limitMs = LIMIT_MS } = how;
  const [first, last] = [index.frames[from]?.pts, index.frames[to]?.pts];
  if (first === undefined || last === undefined || source.pixelFormat === null) return { late: false };
  const enterAt = entrySeconds(index, source.format, from);
  const args = ['-v', 'error', ...choice.args, ...inputArguments(source.path, source.format, enterAt)];
  args.push('-map', `0:${source.stream}`, '-vf', selectFilter(first, last));
  args.push(...keepTimesArguments(ffmpeg, index.timebase), '-frames:v', String(to - from + 1));
  args.push('-pix_fmt', source.pixelFormat, '-f', 'framemd5', '-');
  let isQuiet = true;
  const onReport = (): void => {
    isQuiet = false;
  };
  const start = performance.now();
  const { output, end } = await runFfmpeg(ffmpeg, args, { signal, timeLimitMs: limitMs, lowPriority: true, onReport });
  const ms = performance.now() - start;
  const lines = output.toString('latin1').split('\n');
  const sums = lines.filter((line) => /^\d/.test(line));
  if (!isQuiet || end.exitCode !== 0 || sums.length !== to - from + 1) return { late: end.timedOut };
  return { sums: sums.join('\n'), ms };
}
