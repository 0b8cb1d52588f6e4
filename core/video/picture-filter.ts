import type { ClipIndex } from '../time/clip-index.ts';
import { turnedSize } from '../time/display-size.ts';
import type { ColourFacts } from './parse-header.ts';

/** What a picture is wanted for: exact colours for stills and measuring, or a JPEG for moving through a clip. */
export type PictureKind = 'png' | 'rgba' | 'jpeg';

/** Full chroma and exact rounding: a still must not differ from the clip by the haste of the converter. */
const SCALER = 'bicubic+accurate_rnd+full_chroma_int+full_chroma_inp';
const QUICK_SCALER = 'bicubic';

/** Above this many lines an untagged clip is taken for BT.709, as players do. */
const MOST_LINES_OF_SD = 576;

/** Names of transfer curves and primaries as ffmpeg prints them. */
const HDR_CURVES: Readonly<Record<string, HdrCurve>> = { smpte2084: 'pq', 'arib-std-b67': 'hlg' };
export type HdrCurve = 'pq' | 'hlg';

/**
 * Lets a decoded picture through when its time stamp lies within `first` to `last` (ticks, both included) and is later
 * than the one before it. Of pictures at the same time only the first passes: ffmpeg would give the others a time of its
 * own making, which may be that of another frame.
 */
export function selectFilter(first: number | null, last: number | null): string {
  const later = '(isnan(prev_selected_pts)+gt(pts,prev_selected_pts))';
  return first === null || last === null ? `select='${later}'` : `select='between(pts,${first},${last})*${later}'`;
}

/** The curve of a high dynamic range clip, or null for one that is not. */
export function hdrCurve(colour: ColourFacts): HdrCurve | null {
  return colour.transfer === null ? null : (HDR_CURVES[colour.transfer] ?? null);
}

/**
 * The filters that turn a decoded picture into what is shown: 8-bit sRGB, square pixels, mirrored and turned upright.
 * `cube` names the table that brings high dynamic range to sRGB, in the process's working folder; null without one.
 */
export function pictureFilter(
  index: Pick<ClipIndex, 'width' | 'height' | 'turn' | 'mirrored'>,
  colour: ColourFacts,
  kind: PictureKind,
  cube: string | null,
): string {
  // Turning back gives the size before the turn: width and height change places or do not.
  const { width, height } = turnedSize(index, index.turn);
  const scale = [`scale=w=${width}:h=${height}`, `flags=${kind === 'jpeg' ? QUICK_SCALER : SCALER}`];
  if (colour.matrix === null)
    scale.push(`in_color_matrix=${Math.min(width, height) > MOST_LINES_OF_SD ? 'bt709' : 'bt601'}`);
  // JPEG knows one matrix only: BT.601, full range.
  const jpeg = 'out_color_matrix=bt601:out_range=pc';
  const filters: string[] = [];
  if (cube !== null) {
    filters.push(scale.join(':'), 'format=gbrp16le', `lut3d=file=${cube}:interp=tetrahedral`);
    filters.push(kind === 'jpeg' ? `scale=${jpeg},format=yuvj420p` : `format=${kind === 'png' ? 'rgb24' : 'rgba'}`);
  } else if (kind === 'jpeg') filters.push([...scale, jpeg].join(':'), 'format=yuvj420p');
  else filters.push(scale.join(':'), `format=${kind === 'png' ? 'rgb24' : 'rgba'}`);

  if (index.mirrored) filters.push('hflip');
  if (index.turn === 90) filters.push('transpose=clock');
  else if (index.turn === 180) filters.push('hflip', 'vflip');
  else if (index.turn === 270) filters.push('transpose=cclock');
  // Pixels are square now; a ratio left over from the stored picture would be written into the file.
  filters.push('setsar=1');
  // Without this the PNG would carry the clip's own curve as a gamma, and viewers would brighten the picture.
  if (kind === 'png') filters.push('setparams=color_primaries=bt709:color_trc=iec61966-2-1');
  return filters.join(',');
}
