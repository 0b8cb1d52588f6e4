import type { ClipIndex } from '../../time/clip-index.ts';
import type { ClipSource } from '../index/clip-source.ts';
import { DAMAGE_REPORT_LEVEL, tellsOfDamage } from '../index/damage-lines.ts';
import { entrySeconds } from '../index/entry-point.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { framePipeArguments, readFramePipe } from '../decode/frame-pipe.ts';
import type { DecoderChoice } from '../decode/hardware-decoder.ts';
import type { PipedFrame } from '../decode/frame-pipe.ts';
import { startFfmpeg } from '../process/run-ffmpeg.ts';
import type { FfmpegProcess } from '../process/run-ffmpeg.ts';
import { shownPictures } from '../decode/shown-pictures.ts';
import { QUICK_DECODING, proxyEncoderArguments } from './proxy-encoder.ts';
import type { ProxySide } from './proxy-size.ts';

/** A pass stands still for as long as somebody waits for a picture, and may be of a long clip on a slow machine. */
const PASS_LIMIT_MS = 24 * 60 * 60_000;

export interface ProxyPass {
  /** The proxy pictures in order, as they are read; throws when ffmpeg's output breaks off. */
  readonly frames: AsyncGenerator<PipedFrame>;
  readonly run: FfmpegProcess;
  /** Whether decoding began at a key picture within the clip. */
  readonly entered: boolean;
}

/**
 * One ffmpeg that decodes a clip to its end and makes a proxy picture of every frame, or of those at `from` (ticks) and
 * later. `enterFor` (a frame's number) lets it begin at the key picture before that one where the container allows.
 */
export function startProxyPass(
  source: ClipSource,
  index: ClipIndex,
  ffmpeg: Ffmpeg,
  options: {
    readonly from: number | null;
    readonly enterFor: number | null;
    readonly longest: ProxySide;
    /** In place of the software's. */
    readonly decoder: DecoderChoice | null;
    readonly signal: AbortSignal;
  },
): ProxyPass {
  const { from, enterFor, longest, decoder, signal } = options;
  const enterAt = enterFor === null ? null : entrySeconds(index, source.format, enterFor);
  const last = from === null ? null : Number.MAX_SAFE_INTEGER;
  const shown = shownPictures(source, index, ffmpeg, { kind: 'proxy', longest, first: from, last, enterAt });
  const args = ['-v', DAMAGE_REPORT_LEVEL, ...QUICK_DECODING, ...(decoder?.args ?? []), ...shown.args];
  args.push(...proxyEncoderArguments('copy'), ...framePipeArguments('h264'));
  const run = startFfmpeg(ffmpeg, args, {
    ...{ signal, timeLimitMs: PASS_LIMIT_MS, folder: shown.folder, lowPriority: true },
    // Of one that enters within the clip, or by hardware, any trouble counts: from the start and by software it may be harmless.
    isComplaint: (line) =>
      tellsOfDamage(line, source) || ((enterAt !== null || decoder !== null) && /\[(error|fatal|panic)\] /.test(line)),
  });
  return { frames: readFramePipe(run.output), run, entered: enterAt !== null };
}
