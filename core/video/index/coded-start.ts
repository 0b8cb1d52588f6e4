import type { FileHandle } from 'node:fs/promises';
import { EncodedPacketSink, FilePathSource, Input, MP4, QTFF } from 'mediabunny';
import type { EncodedPacket, InputVideoTrack } from 'mediabunny';
import type { CodedStart } from '../../time/first-picture.ts';
import { readMovie } from './movie-boxes.ts';
import { readPictureTrack } from './picture-track.ts';
import { trackOrientations } from './read-display-boxes.ts';

/** Pictures before the first shown one that are decoded for it; more take longer than to have ffmpeg make it. */
const MOST_PICTURES = 300;
const MOST_BYTES = 32 * 1024 * 1024;
/** A picture that is shown before one that is decoded before it follows within so many: the most that H.264 may hold back. */
const MOST_HELD_BACK = 16;

/**
 * Reads where the pictures of an MP4 or MOV file begin: a few kilobytes of tables and the coded pictures themselves. Null
 * where that is not plain: no H.264 in an `avcC` box, several tracks of pictures, several edits, high dynamic range, or too
 * much hidden before the first shown picture.
 *
 * Throws what the file system or the reader of the container throws.
 */
export async function readCodedStart(path: string, file: FileHandle): Promise<CodedStart | null> {
  const movie = await readMovie(file);
  if (movie === null) return null;
  const input = new Input({ formats: [MP4, QTFF], source: new FilePathSource(path) });
  try {
    return await startOf(input, movie.content);
  } finally {
    input.dispose();
  }
}

async function startOf(input: Input, moov: DataView): Promise<CodedStart | null> {
  const [track, ...more] = await input.getVideoTracks();
  if (track === undefined || more.length > 0) return null;
  const config = await plainConfig(track);
  const edits = readPictureTrack(moov, track.id)?.edits ?? [];
  const orientation = trackOrientations(moov).get(track.id);
  if (config === null || edits.length > 1 || orientation === undefined) return null;
  const from = (edits[0]?.start ?? 0) - 0.5 / (await track.getTimeResolution());
  const found = await picturesUpTo(track, from, lengthBytes(config.description));
  return found === null ? null : { ...orientation, ...config, ...found };
}

async function plainConfig(track: InputVideoTrack): Promise<Pick<CodedStart, 'codec' | 'description'> | null> {
  const config = (await track.getCodec()) === 'avc' ? await track.getDecoderConfig() : null;
  if (config === null || !(config.description instanceof Uint8Array) || (await track.hasHighDynamicRange()))
    return null;
  return { codec: config.codec, description: Uint8Array.from(config.description) };
}

/** The pictures from the key picture before the first one at `from` seconds or later, up to that one. */
async function picturesUpTo(
  track: InputVideoTrack,
  from: number,
  lengthSize: number,
): Promise<Pick<CodedStart, 'pictures' | 'data' | 'shown'> | null> {
  let group: EncodedPacket[] = [];
  let upTo: { readonly packet: EncodedPacket; readonly group: readonly EncodedPacket[] } | null = null;
  let after = 0;
  let bytes = 0;
  for await (const packet of new EncodedPacketSink(track).packets()) {
    if (packet.type === 'key') group = [];
    group.push(packet);
    bytes += packet.byteLength;
    const isEarlier = upTo === null || packet.timestamp < upTo.packet.timestamp;
    if (packet.timestamp >= from && isEarlier) upTo = { packet, group: [...group] };
    if (upTo !== null) after += 1;
    if (after > MOST_HELD_BACK) break;
    if (group.length > MOST_PICTURES || bytes > MOST_BYTES) return null;
  }
  if (upTo?.group[0]?.type !== 'key') return null;
  const { packet: shown, group: needed } = upTo;
  const kept = needed.filter((packet) => packet === shown || isReference(packet.data, lengthSize));
  const pictures = kept.map(({ type, timestamp, data }) => ({
    key: type === 'key',
    time: Math.round(timestamp * 1e6),
    bytes: data.length,
  }));
  const data = Uint8Array.from(Buffer.concat(kept.map((packet) => packet.data)));
  return { pictures, data, shown: Math.round(shown.timestamp * 1e6) };
}

/** Bytes that say how long a unit is (ISO/IEC 14496-15, 5.3.3.1: lengthSizeMinusOne). */
const lengthBytes = (description: Uint8Array): number => ((description[4] ?? 3) & 3) + 1;

/** Whether others may need it (ITU-T H.264, 7.4.1: nal_ref_idc), told by its first slice; where that is not found, they may. */
function isReference(data: Uint8Array, lengthSize: number): boolean {
  let at = 0;
  while (at + lengthSize < data.length) {
    const length = data.subarray(at, at + lengthSize).reduce((sum, byte) => sum * 256 + byte, 0);
    const header = data[at + lengthSize] ?? 0;
    const kind = header & 0x1f;
    if (kind >= 1 && kind <= 5) return header >> 5 !== 0;
    at += lengthSize + length;
  }
  return true;
}
