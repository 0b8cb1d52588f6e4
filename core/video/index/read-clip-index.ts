import { say } from '../../model/say.ts';
import { AppError } from '../../model/errors.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import { squarePixelSize, turnedSize } from '../../time/display-size.ts';
import { frameRate } from '../../time/frame-rate.ts';
import { numbersDiffer, settleIndex } from '../../time/settle-index.ts';
import { withoutEntries } from '../../time/entries.ts';
import { shownFrames } from '../../time/shown-frames.ts';
import type { ShownFrames, TimedPicture } from '../../time/shown-frames.ts';
import { readListing } from './clip-source.ts';
import type { ClipListing, ClipSource, ReadOptions } from './clip-source.ts';
import { DAMAGE_REPORT_LEVEL, tellsOfDamage } from './damage-lines.ts';
import { inputArguments, keepTimesArguments } from '../process/ffmpeg-arguments.ts';
import { findDamage } from './find-damage.ts';
import { parseFramecrc } from './parse-framecrc.ts';
import type { PacketLine, PacketList } from './parse-framecrc.ts';
import { hdrCurve, selectFilter } from '../decode/picture-filter.ts';
import { processError, requireSuccess, runFfmpeg } from '../process/run-ffmpeg.ts';

export interface IndexOptions extends ReadOptions {
  /** Whether to hold the file's table against a full decode, which takes about as long as playing the clip once. */
  readonly verify?: boolean;
}

/** How the index came about. Nothing is left out silently: what is not shown is counted here. */
export interface IndexReport {
  /** Coded pictures that the file lists, and second fields of them that it lists by themselves. */
  readonly packets: number;
  /** Of these: decoded but not shown, by the file's own edits. */
  readonly hidden: number;
  /** Of these: without any time. */
  readonly timeless: number;
  /** Of these: at the time of another one. */
  readonly doubled: number;
  /** Of these: cut short or broken. */
  readonly damaged: number;
  /** Pictures that a full decode delivered; null when none was made. */
  readonly decoded: number | null;
  /** Whether the decode led to other frames than the file's table promises. Numbers are then as `settleFrames` says. */
  readonly tableDiffered: boolean;
}

/** A decode of a long clip on a slow machine. */
const DECODE_LIMIT_MS = 60 * 60_000;

/**
 * Reads where every shown frame of a clip lies in time. Frame identity is (index, pts) from the file's own tables,
 * honouring edit lists, turn, mirror and pixel aspect; seconds and rates play no part.
 *
 * Throws AppError: `file-not-found`, `file-unreadable`, `file-empty`, `format-refused`, `not-a-clip`, `no-video`,
 * `clip-damaged`, `cancelled`, `timed-out`, `ffmpeg-missing`.
 */
export async function readClipIndex(path: string, options: IndexOptions): Promise<ClipIndex> {
  return (await indexFrom(path, options)).index;
}

/** The index together with how it came about. */
export async function readClipIndexReport(
  path: string,
  options: IndexOptions,
): Promise<{ readonly index: ClipIndex; readonly report: IndexReport }> {
  const { index, listing, shown, decoded } = await indexFrom(path, options);
  const { table } = listing;
  const packets = listing.packets();
  const report: IndexReport = {
    packets: packets.length,
    hidden: table.hidden,
    timeless: shown.timeless,
    doubled: shown.doubled,
    damaged: packets.filter((packet) => packet.corrupt).length,
    decoded: decoded === null ? null : decoded.list.packets.length,
    tableDiffered: decoded !== null && numbersDiffer(table.frames, index.frames),
  };
  return { index, report };
}

/** The index, and what it was made from. `shown`: by the file's list, or by the decoder where that tells no times. */
async function indexFrom(
  path: string,
  options: IndexOptions,
): Promise<{
  readonly index: ClipIndex;
  readonly listing: ClipListing;
  readonly shown: ShownFrames;
  readonly decoded: DecodedTimes | null;
}> {
  const listing = await readListing(path, options);
  const { source, table } = listing;
  // A container without time stamps (AVI) leaves it to the decoder to tell when a picture is shown.
  const decoderTells = table.timeless > 0 || table.frames.length === 0;
  const decoded = options.verify === true || decoderTells ? await decodeTimes(source, options) : null;
  const shown = decoderTells && decoded !== null ? decodedFrames(decoded.list, listing.packets()) : table;
  const { doubled, timeless } = shown;
  const frames = table.doubled === 0 && listing.rises ? shown.frames : withoutEntries(shown.frames);

  // The container's word, also where a decode is at hand: marks must lie on the same pixels with and without one.
  const stored = { width: source.storedWidth, height: source.storedHeight };
  const listed: ClipIndex = {
    ...turnedSize(squarePixelSize(stored, source.pixelAspect), source.turn),
    turn: source.turn,
    mirrored: source.mirrored,
    pixelAspect: source.pixelAspect,
    timebase: source.timebase,
    ...frameRate(
      frames.map(({ pts }) => pts),
      source.timebase,
    ),
    captureRate: source.captureRate === null ? null : { framesPerSecond: source.captureRate, confirmed: false },
    sound: source.sound,
    dynamicRange: hdrCurve(source.colour) ?? 'sdr',
    frames,
    damage: [],
    leftOut: { doubled, hidden: table.hidden, timeless },
  };
  const index = decoded === null ? listed : await settle(listed, decoded, listing.packets(), path, options);
  if (index.frames.length === 0)
    throw new AppError('clip-damaged', say`${path} holds no frame that can be shown; copy it from the camera again.`, {
      detail: { path, packets: listing.packets().length },
    });
  return { index, listing, shown, decoded };
}

interface DecodedTimes {
  readonly list: PacketList;
  /** Whether ffmpeg reported damage. */
  readonly errors: boolean;
}

/**
 * Decodes the whole clip and lists when each picture is shown. The pictures themselves never leave ffmpeg: the encoder
 * wrapped_avframe hands on only a reference.
 */
async function decodeTimes(source: ClipSource, { ffmpeg, signal }: ReadOptions): Promise<DecodedTimes> {
  const args = ['-v', DAMAGE_REPORT_LEVEL, ...inputArguments(source.path, source.format), '-map', `0:${source.stream}`];
  args.push('-vf', selectFilter(null, null), ...keepTimesArguments(ffmpeg, source.timebase));
  args.push('-c:v', 'wrapped_avframe', '-f', 'framecrc', '-');
  let errors = false;
  const onReport = (line: string): void => {
    errors ||= tellsOfDamage(line, source);
  };
  const { output, end } = await runFfmpeg(ffmpeg, args, { signal, timeLimitMs: DECODE_LIMIT_MS, onReport });
  const list = parseFramecrc(output.toString('latin1'));
  requireSuccess(end);
  // A damaged clip ends with an error after all that could be decoded; what there is, is shown.
  if (list.packets.length > 0) return { list, errors: errors || end.exitCode !== 0 };
  if (/Unrecognized option|Option not found|No such filter/.test(end.stderrTail))
    throw processError(end, say`This ffmpeg (${ffmpeg.version}) cannot be used; install ffmpeg 5 or newer.`);
  throw new AppError(
    'clip-damaged',
    say`No frame of ${source.path} can be decoded (${source.codec}). Copy it from the camera again. If that fails, set the camera to record H.264 (“most compatible”) and film again.`,
    { detail: { path: source.path, codec: source.codec, stderrTail: end.stderrTail } },
  );
}

/** Holds the table against what was decoded; where damage was reported, looks where it lies. */
async function settle(
  index: ClipIndex,
  decoded: DecodedTimes,
  packets: readonly PacketLine[],
  path: string,
  options: ReadOptions,
): Promise<ClipIndex> {
  const delivered = decoded.list.packets.flatMap(({ pts }) => pts ?? []);
  const errors = decoded.errors || packets.some(({ corrupt }) => corrupt);
  return settleIndex(index, { delivered, errors }, errors ? await findDamage(path, options) : []);
}

/** The decoded frames as a table, with what only the file's list knows: key pictures and durations. */
function decodedFrames(decoded: PacketList, packets: readonly PacketLine[]): ShownFrames {
  const listed = new Map(packets.map((packet) => [packet.pts, packet]));
  const pictures = decoded.packets.map(({ pts, duration }): TimedPicture => {
    const packet = pts === null ? undefined : listed.get(pts);
    return { pts, duration: packet?.duration ?? duration, key: packet?.key ?? false, hidden: false };
  });
  return shownFrames(pictures);
}
