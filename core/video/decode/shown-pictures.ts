import type { ClipIndex } from '../../time/clip-index.ts';
import type { ClipSource } from '../index/clip-source.ts';
import type { PictureSide } from '../proxy/proxy-size.ts';
import { inputArguments, keepTimesArguments, pipedInputArguments } from '../process/ffmpeg-arguments.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { hdrCurve, pictureFilter, selectFilter, selectTimesFilter } from './picture-filter.ts';
import type { PictureKind } from './picture-filter.ts';
import { toneCube } from './tone-cube-file.ts';

/** What an ffmpeg is told that makes pictures as they are shown, and the folder in which it must run. */
export interface ShownPictures {
  /** All but the report's level before, and the encoder and the output after. */
  readonly args: readonly string[];
  readonly folder: string | undefined;
}

/**
 * Decodes a clip and makes pictures of the frames with time stamps `first` to `last` (ticks, both included; null = all),
 * upright, in square pixels and the colours of `kind`, each under its own time stamp. `enterAt` as in `inputArguments`.
 */
export function shownPictures(
  source: ClipSource,
  index: ClipIndex,
  ffmpeg: Ffmpeg,
  wanted: {
    readonly kind: PictureKind;
    readonly first?: number | null;
    readonly last?: number | null;
    /** Of the frames at these times (ticks, at least one) alone, in place of all from `first` to `last`. */
    readonly times?: readonly number[];
    readonly enterAt: number | null;
    /** Standard input brings a file with the clip's pictures alone, in place of the clip. */
    readonly piped?: boolean;
    /** Filters for what is shown, after all others. */
    readonly then?: string;
    /** Of proxy pictures; the largest when not given. */
    readonly longest?: PictureSide;
  },
): ShownPictures {
  const { kind, first = null, last = null, times, enterAt, piped = false, then, longest } = wanted;
  const curve = hdrCurve(source.colour);
  const cube = curve === null ? null : toneCube(curve);
  const show = pictureFilter(index, source, kind, cube?.name ?? null, longest);
  const args = piped ? pipedInputArguments() : inputArguments(source.path, source.format, enterAt);
  args.push('-map', `0:${piped ? 0 : source.stream}`);
  const select = times === undefined ? selectFilter(first, last) : selectTimesFilter(times);
  const filters = [select, show, ...(then === undefined ? [] : [then])];
  args.push('-vf', filters.join(','), ...keepTimesArguments(ffmpeg, index.timebase));
  return { args, folder: cube?.folder };
}
