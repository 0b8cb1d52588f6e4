import { resolve } from 'node:path';
import { LRUCache } from 'lru-cache';
import { say } from '../../model/say.ts';
import { AppError } from '../../model/errors.ts';
import type { Ratio } from '../../model/frame.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import type { Orientation } from '../../time/display-matrix.ts';
import { sameRatio } from '../../time/rational.ts';
import { timesRise } from '../../time/entries.ts';
import { shownFrames } from '../../time/shown-frames.ts';
import type { ShownFrames } from '../../time/shown-frames.ts';
import type { ClipFormat } from './clip-format.ts';
import { readClipFile } from './clip-format.ts';
import { framesOf, packetsOf } from './listed-pictures.ts';
import type { ListedPictures } from './listed-pictures.ts';
import { askListedPictures } from './read-container.ts';
import { inputArguments, listPicturesArguments } from '../process/ffmpeg-arguments.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { parseFramecrc, picturesOf } from './parse-framecrc.ts';
import type { PacketLine } from './parse-framecrc.ts';
import { HeaderLines, parseHeader } from './parse-header.ts';
import type { HeaderFacts } from './parse-header.ts';
import { readDisplayBoxes } from './read-display-boxes.ts';
import { refuseLargePictures } from './reasonable.ts';
import { requireSuccess, runFfmpeg } from '../process/run-ffmpeg.ts';
import type { ProcessEnd } from '../process/run-ffmpeg.ts';
import { findSecondFields } from './second-fields.ts';

/** How to get at the pictures of one clip file: what a decoding run must be told, beside the table of frames. */
export interface ClipSource
  extends
    Orientation,
    Pick<
      HeaderFacts,
      'stream' | 'trackId' | 'codec' | 'pixelFormat' | 'progressive' | 'colour' | 'sound' | 'captureRate'
    > {
  /** Absolute. */
  readonly path: string;
  readonly format: ClipFormat;
  readonly timebase: Ratio;
  /** Size as the container tells it, in stored pixels. */
  readonly storedWidth: number;
  readonly storedHeight: number;
  /** Width of a stored pixel over its height; 1/1 when the file does not say. */
  readonly pixelAspect: Ratio;
}

export interface ReadOptions {
  readonly ffmpeg: Ffmpeg;
  readonly signal?: AbortSignal | undefined;
  /** Whether a plain MP4 or MOV file is listed by its tables, at once, where ffmpeg reads all of the file. */
  readonly byTables?: boolean;
}

interface FileStamp {
  readonly bytes: number;
  /** ms since 1970 */
  readonly modifiedMs: number;
}

const LIST_LIMIT_MS = 5 * 60_000;
/** Clips whose facts are kept, so that stills of one clip do not ask for them again. */
const sources = new LRUCache<string, ClipSource>({ max: 64 });

/**
 * Finds the picture stream of a clip, the same that ffmpeg itself takes as the best, and how to show it.
 *
 * Throws AppError: as `readClipFile`, and `no-video`, `clip-damaged`, `not-a-clip`, `cancelled`, `timed-out`.
 */
export async function readClipSource(path: string, options: ReadOptions): Promise<ClipSource> {
  const file = await readClipFile(path);
  const known = sources.get(sourceKey(path, file));
  return known ?? (await listPackets(path, options, ['-frames:v', '1'])).source;
}

/**
 * The same for a clip whose index is known. Throws AppError `clip-changed` as well, when its time base is not that of the
 * index, so that it cannot be the same file.
 */
export async function readIndexedSource(path: string, index: ClipIndex, options: ReadOptions): Promise<ClipSource> {
  const source = await readClipSource(path, options);
  if (!sameRatio(source.timebase, index.timebase))
    throw new AppError('clip-changed', say`${path} is not the clip it was; add it again.`, { detail: { path } });
  return source;
}

/** What a file lists of its pictures. */
export interface ClipListing {
  readonly source: ClipSource;
  readonly table: ShownFrames;
  /** Whether times rise from group to group (`timesRise`). */
  readonly rises: boolean;
  /** Every packet of the picture stream in file order; a long list that few need. */
  packets(): readonly PacketLine[];
}

/** The same, with the frames that its list of pictures shows; which packets are second fields is looked up. */
export async function readListing(path: string, options: ReadOptions): Promise<ClipListing> {
  const plain = await listByTables(path, options);
  if (plain !== null) {
    const { source, pictures, shown } = plain;
    const listing = { source, ...shown, packets: () => packetsOf(pictures) };
    if (isOfFrames(listing)) return listing;
  }
  const { source, packets } =
    plain === null
      ? await listPackets(path, options, [])
      : { source: plain.source, packets: packetsOf(plain.pictures) };
  const listing = listingOf(source, packets);
  if (isOfFrames(listing)) return listing;
  const second = await findSecondFields(source, options);
  return listingOf(
    source,
    packets.map((packet, place) => ({ ...packet, secondField: second.has(place) })),
  );
}

/** The same, with every packet. */
export async function readPackets(
  path: string,
  options: ReadOptions,
): Promise<{ readonly source: ClipSource; readonly packets: readonly PacketLine[] }> {
  const { source, packets } = await readListing(path, options);
  return { source, packets: packets() };
}

function listingOf(source: ClipSource, packets: readonly PacketLine[]): ClipListing {
  const pictures = picturesOf(packets);
  return { source, table: shownFrames(pictures), rises: timesRise(pictures), packets: () => packets };
}

/** Whether no packet can be the second field of a picture. */
function isOfFrames({ source, table: { timeless, doubled } }: ClipListing): boolean {
  return source.codec !== 'h264' || (source.progressive && timeless === 0 && doubled === 0);
}

/** What `readIndexedSource` would say of a file of that size and time of change, where it was read before; else null. */
export function knownSource(path: string, index: ClipIndex, file: FileStamp): ClipSource | null {
  const known = sources.get(sourceKey(path, file));
  return known !== undefined && sameRatio(known.timebase, index.timebase) ? known : null;
}

/** By the tables of the file, which ffmpeg's reading of its head must bear out; null where they are not plain. */
async function listByTables(
  path: string,
  options: ReadOptions,
): Promise<{
  readonly source: ClipSource;
  readonly pictures: ListedPictures;
  readonly shown: ReturnType<typeof framesOf>;
} | null> {
  if (options.byTables !== true) return null;
  const needless = new AbortController();
  const signal = AbortSignal.any([needless.signal, ...(options.signal === undefined ? [] : [options.signal])]);
  const head = readClipSource(path, { ...options, signal });
  // What is wrong with the file is said when the head is waited for.
  head.catch(() => undefined);
  const listed = await askListedPictures(path).catch(() => null);
  if (listed === null) {
    needless.abort();
    await head.catch(() => undefined);
    return null;
  }
  // Three minutes take as long as a third of the head does: listed while it is waited for.
  const shown = framesOf(listed);
  const source = await head;
  if (listed.trackId !== source.trackId) return null;
  return sameRatio(source.timebase, { num: 1, den: listed.timescale }) ? { source, pictures: listed, shown } : null;
}

async function listPackets(
  path: string,
  { ffmpeg, signal }: ReadOptions,
  limit: readonly string[],
): Promise<{ readonly source: ClipSource; readonly packets: readonly PacketLine[] }> {
  const file = await readClipFile(path);
  const absolute = resolve(path);
  const args = ['-v', 'info', ...inputArguments(absolute, file.format), '-an', '-sn', '-dn'];
  args.push(...listPicturesArguments(ffmpeg, limit));
  const lines = new HeaderLines();
  const onReport = (line: string): void => {
    lines.read(line);
  };
  const { output, end } = await runFfmpeg(ffmpeg, args, { signal, timeLimitMs: LIST_LIMIT_MS, onReport });
  requireSuccess(end);

  refuseLargePictures(path, lines.text);
  const header = parseHeader(lines.text);
  if (header === null || header.cover) throw noPictures(path, lines.text, end);
  const list = parseFramecrc(output.toString('latin1'));
  const { timebase, width, height } = list;
  if (list.packets.length === 0 || timebase === null || width === null || height === null || width * height === 0)
    throw damaged(path, lines.text, end);

  const orientation = await orientationOf(absolute, file.format, header);
  const source: ClipSource = {
    ...orientation,
    stream: header.stream,
    trackId: header.trackId,
    codec: header.codec,
    pixelFormat: header.pixelFormat,
    progressive: header.progressive,
    colour: header.colour,
    sound: header.sound,
    captureRate: header.captureRate,
    path: absolute,
    format: file.format,
    timebase,
    storedWidth: width,
    storedHeight: height,
    pixelAspect: list.pixelAspect ?? { num: 1, den: 1 },
  };
  sources.set(sourceKey(path, file), source);
  return { source, packets: list.packets };
}

/** The track's matrix where the file is MP4 or MOV, else what ffmpeg reports. @throws AppError as `readClipFile`. */
async function orientationOf(path: string, format: ClipFormat, header: HeaderFacts): Promise<Orientation> {
  const reported: Orientation = { turn: header.turn, mirrored: false };
  if (format !== 'mov' || header.trackId === null) return reported;
  try {
    return (await readDisplayBoxes(path)).get(header.trackId) ?? reported;
  } catch (cause) {
    // A file that was moved since ffmpeg read it is told of in words.
    await readClipFile(path);
    throw cause;
  }
}

/** A changed file is another file. */
function sourceKey(path: string, file: FileStamp): string {
  return `${file.bytes}|${file.modifiedMs}|${resolve(path)}`;
}

function noPictures(path: string, report: string, end: ProcessEnd): AppError {
  const detail = { path, stderrTail: end.stderrTail };
  if (report.includes('Input #0'))
    return new AppError('no-video', say`${path} holds no moving pictures; choose the clip with the swing.`, { detail });
  return damaged(path, report, end);
}

function damaged(path: string, report: string, end: ProcessEnd): AppError {
  const cutOff = report.includes('moov atom not found');
  return new AppError(
    'clip-damaged',
    cutOff
      ? say`${path} was cut off before its end was written; copy it from the camera again.`
      : say`${path} is damaged, no frame of it can be read; copy it from the camera again.`,
    { detail: { path, stderrTail: end.stderrTail } },
  );
}
