import type { TickSpan } from '../../time/settle-index.ts';
import { readPackets } from './clip-source.ts';
import type { ClipSource, ReadOptions } from './clip-source.ts';
import { damageExtent } from './damage-extent.ts';
import type { CodedPicture, Evidence } from './damage-extent.ts';
import { tellsOfDecoding } from './damage-lines.ts';
import { inputArguments, keepTimesArguments } from '../process/ffmpeg-arguments.ts';
import { isAtLeast } from '../process/find-ffmpeg.ts';
import type { PacketLine } from './parse-framecrc.ts';
import { requireSuccess, runFfmpeg } from '../process/run-ffmpeg.ts';

/** A decode of a long clip on a slow machine, one thread. */
const DECODE_LIMIT_MS = 2 * 60 * 60_000;
/**
 * Packets that ffmpeg may have read beyond the one that its decoder is at. Until 6.0 it decodes each packet before it
 * reads the next one; since then a thread of its own reads ahead, by a queue of 8 and one in hand at either end.
 */
const READ_AHEAD = 16;
/** Most pictures a decoder holds back to bring them into the order in which they are shown (H.264, HEVC: 16). */
const HELD_BACK = 16;
/** AV_PICTURE_TYPE_I: a picture that needs no other. A refresh that goes little by little is called a key as well. */
const INTRA = '1';

/**
 * Finds the times of a clip whose pictures cannot be trusted, in a decode of its own. Only worth its time when an
 * ordinary pass reported damage. What the decoder does not notice is not found: HEVC says nothing of wrong bits within
 * a picture as long as they can be read as some picture.
 *
 * The decode uses one thread, so that complaints stand in the report in order with the packets read and the pictures
 * delivered. A release that reads ahead of its decoder makes it uncertain which packet a complaint is about: all that it
 * may be about is doubted, at worst the group after the damaged one too.
 *
 * Throws AppError: as `readPackets`.
 */
export async function findDamage(path: string, options: ReadOptions): Promise<TickSpan[]> {
  const { ffmpeg, signal } = options;
  const { source, packets } = await readPackets(path, options);
  const reader = new DamageReader(source, isAtLeast(ffmpeg.version, '6.1') ? READ_AHEAD : 0);
  const args = ['-v', 'level+info', '-debug_ts', '-threads', '1', ...inputArguments(source.path, source.format)];
  args.push('-map', `0:${source.stream}`, ...keepTimesArguments(ffmpeg, source.timebase));
  args.push('-c:v', 'wrapped_avframe', '-f', 'null', '-');
  const onReport = (line: string): void => {
    reader.read(line);
  };
  const { end } = await runFfmpeg(ffmpeg, args, { signal, timeLimitMs: DECODE_LIMIT_MS, onReport });
  requireSuccess(end);
  return reader.damage(packets);
}

interface Delivered {
  readonly pts: number;
  readonly intra: boolean;
}

/** Reads what ffmpeg reports at `level+info` with `-debug_ts`, line by line. */
export class DamageReader {
  readonly #source: Pick<ClipSource, 'codec'>;
  readonly #readAhead: number;
  /** Place of the last packet read, in file order, from 0. */
  #packet = -1;
  readonly #delivered: Delivered[] = [];
  /** By the last packet read: where in the list of delivered pictures the first complaint about it came. */
  readonly #complaints = new Map<number, number>();

  constructor(source: Pick<ClipSource, 'codec'>, readAhead: number) {
    this.#source = source;
    this.#readAhead = readAhead;
  }

  read(line: string): void {
    if (line.includes('demuxer+ffmpeg -> ')) {
      if (line.includes('type:video')) this.#packet += 1;
      return;
    }
    const decoded = /decoder -> .*?\b(?:frame_)?pts:(-?\d+)\b.* keyframe:(\d) frame_type:(\d)/.exec(line);
    if (decoded !== null) {
      const pts = Number(decoded[1]);
      this.#delivered.push({ pts, intra: decoded[2] === '1' && decoded[3] === INTRA });
      return;
    }
    // What comes before the first packet is the look into the file, which meets the same damage again later.
    if (this.#packet < 0 || !tellsOfDecoding(line, this.#source)) return;
    if (!this.#complaints.has(this.#packet)) this.#complaints.set(this.#packet, this.#delivered.length);
  }

  /** The times that are spoilt, with what the list of packets (the file's own order) says besides. */
  damage(packets: readonly PacketLine[]): TickSpan[] {
    if (packets.some(({ pts, secondField }) => pts === null && !secondField)) return this.#damageWithoutTimes();
    const intra = new Set(this.#delivered.filter((picture) => picture.intra).map(({ pts }) => pts));
    const came = new Set(this.#delivered.map(({ pts }) => pts));
    let ofPicture: number | null = null;
    const pictures = packets.map(({ pts, key, discard, secondField }): CodedPicture => {
      // Damage in a second field is damage of its picture, which has the time of the first.
      if (!secondField) ofPicture = pts;
      return { pts: ofPicture, entry: key && !secondField && pts !== null && (discard || intra.has(pts)) };
    });
    const evidence = [...this.#complaints].map(([packet, place]): Evidence => ({
      from: Math.max(0, packet - this.#readAhead),
      to: packet,
      after: this.#delivered[place - 1]?.pts ?? null,
    }));
    packets.forEach(({ pts, corrupt, discard, secondField }, place) => {
      const lost = !discard && !secondField && pts !== null && !came.has(pts);
      if (corrupt || lost) evidence.push({ from: place, to: place, after: null });
    });
    return damageExtent(pictures, evidence);
  }

  /** A file that gives its packets no times (AVI): the pictures delivered stand in for them, with a wide margin. */
  #damageWithoutTimes(): TickSpan[] {
    const pictures = this.#delivered.map(({ pts, intra }): CodedPicture => ({ pts, entry: intra }));
    const evidence = [...this.#complaints.values()].map((place): Evidence => ({
      from: place,
      to: place + HELD_BACK,
      after: null,
    }));
    return damageExtent(pictures, evidence);
  }
}
