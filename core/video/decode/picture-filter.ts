import type { ClipIndex } from '../../time/clip-index.ts';
import { turnedSize } from '../../time/display-size.ts';
import type { Size } from '../../time/display-size.ts';
import type { ClipSource } from '../index/clip-source.ts';
import type { ColourFacts } from '../index/parse-header.ts';
import { proxySize } from '../proxy/proxy-size.ts';
import type { PictureSide } from '../proxy/proxy-size.ts';

/**
 * What a picture is wanted for: exact colours for stills and measuring (`png`, `rgba`), the clip's own samples where
 * they are plain 4:2:0 (`i420`, see samples-as-stored), or a small one for moving through a clip (`proxy`).
 */
export type PictureKind = 'png' | 'rgba' | 'i420' | 'proxy';

/** Full chroma and exact rounding: a still must not differ from the clip by the haste of the converter. */
const SCALER = 'bicubic+accurate_rnd+full_chroma_int+full_chroma_inp';
const QUICK_SCALER = 'bilinear';

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
  return first === null || last === null ? `select='${LATER}'` : `select='between(pts,${first},${last})*${LATER}'`;
}

/** The same for pictures at these times alone (ticks, at least one). */
export function selectTimesFilter(times: readonly number[]): string {
  return `select='(${times.map((pts) => `eq(pts,${pts})`).join('+')})*${LATER}'`;
}

const LATER = '(isnan(prev_selected_pts)+gt(pts,prev_selected_pts))';

/** The curve of a high dynamic range clip, or null for one that is not. */
export function hdrCurve(colour: ColourFacts): HdrCurve | null {
  return colour.transfer === null ? null : (HDR_CURVES[colour.transfer] ?? null);
}

/** Pixel formats of 8-bit 4:2:0, limited and full range. */
const PLAIN_FORMATS = new Set(['yuv420p', 'yuvj420p']);

/**
 * Whether a clip's samples can be shown as they are stored: 8-bit 4:2:0 of standard range, square pixels and even sides
 * (a quarter turn then moves whole samples). All others are converted, by the same filters as the stills.
 */
export function samplesAsStored(
  index: Pick<ClipIndex, 'width' | 'height' | 'pixelAspect'>,
  source: { readonly colour: ColourFacts; readonly pixelFormat: string | null },
): boolean {
  const square = index.pixelAspect.num === index.pixelAspect.den;
  const even = index.width % 2 === 0 && index.height % 2 === 0;
  const matrix = source.colour.matrix ?? 'bt709';
  const known = matrix === 'bt709' || matrix === 'smpte170m' || matrix === 'bt470bg';
  const plain = source.pixelFormat !== null && PLAIN_FORMATS.has(source.pixelFormat);
  return plain && square && even && known && hdrCurve(source.colour) === null;
}

/** The matrix that an untagged clip is taken for, as players do. */
export function assumedMatrix(size: { readonly width: number; readonly height: number }): 'bt709' | 'bt601' {
  return Math.min(size.width, size.height) > MOST_LINES_OF_SD ? 'bt709' : 'bt601';
}

/**
 * The scaler's size for a decoded picture that shall fill `size`, or, where it has other proportions than the clip, fit
 * into it: a clip may change its size on the way, and an angle must be true on every frame. A picture as large as the
 * container says always fills it. One that is off by a pixel does too, as sizes are whole numbers.
 */
function fittedSize(
  { storedWidth, storedHeight }: Pick<ClipSource, 'storedWidth' | 'storedHeight'>,
  size: Size,
): string {
  const { width, height } = size;
  const fills = `eq(iw,${storedWidth})*eq(ih,${storedHeight})+lte(abs(${height}*dar-${width}),1)`;
  const side = (full: number, other: string): string => `if(${fills},${full},max(1,min(${full},round(${other}))))`;
  return `w='${side(width, `${height}*dar`)}':h='${side(height, `${width}/dar`)}'`;
}

/**
 * The filters that turn a decoded picture into what is shown: 8-bit sRGB (`proxy`: BT.709), square pixels, mirrored and
 * turned upright; always of the size that the index tells, or of the `longest` side of proxy pictures. `cube` names the table that brings high dynamic range to sRGB, in the process's working folder; null
 * without one.
 */
export function pictureFilter(
  index: Pick<ClipIndex, 'width' | 'height' | 'turn' | 'mirrored'>,
  source: Pick<ClipSource, 'colour' | 'storedWidth' | 'storedHeight'>,
  kind: PictureKind,
  cube: string | null,
  longest?: PictureSide,
): string {
  const { colour } = source;
  // Turning back gives the size before the turn: width and height change places or do not.
  const size = turnedSize(kind === 'proxy' ? proxySize(index, longest) : index, index.turn);
  const filters: string[] = [];
  const scale = [`scale=${fittedSize(source, size)}`, `flags=${kind === 'proxy' ? QUICK_SCALER : SCALER}`];
  if (kind === 'i420') filters.push('format=yuv420p|yuvj420p', scale.join(':'));
  else {
    if (colour.matrix === null) scale.push(`in_color_matrix=${assumedMatrix(turnedSize(index, index.turn))}`);
    const tagged = 'out_color_matrix=bt709:out_range=tv';
    if (cube !== null) {
      filters.push(scale.join(':'), 'format=gbrp16le', `lut3d=file=${cube}:interp=tetrahedral`);
      filters.push(kind === 'proxy' ? `scale=${tagged},format=yuv420p` : `format=${kind === 'png' ? 'rgb24' : 'rgba'}`);
    } else if (kind === 'proxy') filters.push([...scale, tagged].join(':'), 'format=yuv420p');
    else filters.push(scale.join(':'), `format=${kind === 'png' ? 'rgb24' : 'rgba'}`);
  }
  // What was fitted and is too narrow or too low stands in the middle of the frame.
  filters.push(`pad=w=${size.width}:h=${size.height}:x=(ow-iw)/2:y=(oh-ih)/2`);

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
