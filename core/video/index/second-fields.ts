import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import type { ClipSource } from './clip-source.ts';
import { inputArguments } from '../process/ffmpeg-arguments.ts';
import { requireSuccess, startFfmpeg } from '../process/run-ffmpeg.ts';

/** Reading the headers of a long clip on a slow machine. */
const HEADERS_LIMIT_MS = 5 * 60_000;
/** Types of NAL units that begin with a slice header (ISO/IEC 14496-10, table 7-1): of the picture itself, not beside it. */
const SLICES = new Set([1, 2, 5]);

/**
 * Finds the packets of an H.264 clip that hold nothing but the second field of a picture whose first field came with an
 * earlier packet: cameras that take two fields a picture (AVCHD) store each in a packet with a time of its own, and both
 * together are one frame. Places count packets in file order. None in a clip that cannot hold fields, which the first of
 * its headers tells.
 *
 * Nothing is decoded. Throws AppError `cancelled`, `timed-out`, `ffmpeg-missing`.
 */
export async function findSecondFields(
  source: Pick<ClipSource, 'path' | 'format' | 'stream'>,
  { ffmpeg, signal }: { readonly ffmpeg: Ffmpeg; readonly signal?: AbortSignal | undefined },
): Promise<ReadonlySet<number>> {
  const reader = new FieldReader();
  const args = ['-v', 'info', ...inputArguments(source.path, source.format), '-map', `0:${source.stream}`];
  args.push('-c', 'copy', '-copyinkf', '-copyts', '-bsf:v', 'trace_headers', '-f', 'null', '-');
  const run = startFfmpeg(ffmpeg, args, {
    ...{ signal, timeLimitMs: HEADERS_LIMIT_MS },
    onReport: (line) => {
      reader.read(line);
      if (reader.framesOnly) run.stop();
    },
  });
  run.output.drain();
  requireSuccess(await run.end);
  return reader.framesOnly ? new Set() : reader.secondFields;
}

interface Field {
  readonly frameNumber: number;
  readonly bottom: boolean;
}

/** Reads what ffmpeg's trace_headers says, line by line. */
export class FieldReader {
  readonly secondFields = new Set<number>();
  /** Whether the clip says that all its pictures are whole frames. */
  framesOnly = false;
  #packet = -1;
  /** The first field of a picture whose second has not come. */
  #open: Field | null = null;
  /** What the present packet held so far, when that was a field. */
  #current: Field | null = null;
  #isFirstPicture = true;
  #isSlice = false;
  #frameNumber = -1;

  read(line: string): void {
    const header = /\b(nal_unit_type|frame_mbs_only_flag|frame_num|field_pic_flag|bottom_field_flag) +[01]+ = (\d+)/;
    const [, name, text] = header.exec(line) ?? [];
    if (name === undefined) {
      if (/trace_headers[^\]]*\].* Packet: \d+ bytes/.test(line)) this.#beginPacket();
      return;
    }
    const value = Number(text);
    if (name === 'nal_unit_type') this.#isSlice = SLICES.has(value);
    else if (name === 'frame_mbs_only_flag') this.framesOnly ||= value === 1;
    else if (!this.#isSlice) return;
    else if (name === 'frame_num') this.#frameNumber = value;
    else if (name === 'bottom_field_flag') this.#slice({ frameNumber: this.#frameNumber, bottom: value === 1 });
    else if (value === 0) this.#slice(null);
  }

  #beginPacket(): void {
    this.#packet += 1;
    this.#current = null;
    this.#isFirstPicture = true;
    this.#isSlice = false;
  }

  /** A slice of a field, or of a whole frame (null). */
  #slice(field: Field | null): void {
    const again = field !== null && this.#current !== null && sameField(field, this.#current);
    if (again) return;
    // Fields of one picture have one number and lie on different lines (7.4.1.2.4); a frame in between parts them.
    const open = this.#open;
    const isSecond = field !== null && open?.frameNumber === field.frameNumber && open.bottom !== field.bottom;
    if (isSecond && this.#isFirstPicture) this.secondFields.add(this.#packet);
    if (!isSecond) this.secondFields.delete(this.#packet);
    this.#open = isSecond ? null : field;
    this.#current = field;
    this.#isFirstPicture = false;
  }
}

function sameField(a: Field, b: Field): boolean {
  return a.frameNumber === b.frameNumber && a.bottom === b.bottom;
}
