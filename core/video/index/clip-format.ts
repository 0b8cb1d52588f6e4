import { say } from '../../model/say.ts';
import { requireFile } from '../../files/find-file.ts';
import { AppError } from '../../model/errors.ts';
import { refuseUnreasonableFile } from './reasonable.ts';

/**
 * The container formats that are opened, by the name of ffmpeg's reader. It is always named to ffmpeg, so that a file is
 * never taken for something else: a playlist or a list of files (hls, dash, concat) could make it open other files.
 */
export const CLIP_FORMATS = ['mov', 'matroska', 'avi', 'mpegts', 'mpeg', 'flv', 'asf'] as const;
export type ClipFormat = (typeof CLIP_FORMATS)[number];

/** Enough for three MPEG-TS packets with their four extra bytes. */
const HEAD_BYTES = 1024;
/** Kinds of boxes an ISO base media or QuickTime file may begin with. */
const FIRST_BOXES = new Set(['ftyp', 'moov', 'mdat', 'free', 'skip', 'wide', 'pnot', 'styp', 'sidx', 'moof', 'uuid']);

/** The container format that the first bytes of a file show, whatever its name says; null when it is none we open. */
export function clipFormat(head: Uint8Array): ClipFormat | null {
  const text = (from: number, to: number): string => String.fromCharCode(...head.subarray(from, to));
  const starts = (...bytes: number[]): boolean => bytes.every((byte, place) => head[place] === byte);
  if (FIRST_BOXES.has(text(4, 8))) return 'mov';
  if (starts(0x1a, 0x45, 0xdf, 0xa3)) return 'matroska';
  if (text(0, 4) === 'RIFF' && text(8, 11) === 'AVI') return 'avi';
  if (starts(0x00, 0x00, 0x01, 0xba)) return 'mpeg';
  if (text(0, 3) === 'FLV') return 'flv';
  if (starts(0x30, 0x26, 0xb2, 0x75, 0x8e, 0x66, 0xcf, 0x11)) return 'asf';
  // MPEG-TS packets of 188 bytes, or of 192 with a time stamp before each (AVCHD cameras).
  const syncs = (first: number, step: number): boolean => [0, 1, 2].every((n) => head[first + n * step] === 0x47);
  return syncs(0, 188) || syncs(4, 192) ? 'mpegts' : null;
}

/** Whether the first bytes are those of a text that names other files. */
export function isPlaylist(head: Uint8Array): boolean {
  const text = new TextDecoder('latin1').decode(head).replace(/^ï»¿/, '').trimStart();
  return /^(#EXTM3U|ffconcat|\[playlist\]|\[Reference\]|<\?xml[^>]*>\s*<(MPD|smil)\b|<MPD\b|<smil\b|v=0\r?\n)/i.test(
    text,
  );
}

export interface ClipFile {
  readonly format: ClipFormat;
  readonly bytes: number;
  /** Time of the last change, milliseconds since 1970. */
  readonly modifiedMs: number;
}

/**
 * Looks at a file and tells which kind of clip it is, from its content alone.
 *
 * Throws AppError: `file-not-found`, `file-unreadable` (a folder, a pipe, not allowed, no answer), `file-empty`,
 * `format-refused` (a playlist), `not-a-clip`, and as `refuseUnreasonableFile`.
 */
export async function readClipFile(path: string): Promise<ClipFile> {
  const detail = { path };
  const { bytes, modifiedMs, heldBytes, head } = await requireFile(path, HEAD_BYTES);
  if (bytes === 0) throw new AppError('file-empty', say`${path} is empty; copy it from the camera again.`, { detail });
  const format = clipFormat(head);
  if (format !== null) {
    refuseUnreasonableFile(path, bytes, heldBytes);
    return { format, bytes, modifiedMs };
  }
  if (isPlaylist(head))
    throw new AppError(
      'format-refused',
      say`${path} is a list that points at other files, not a clip; choose the clip itself.`,
      { detail },
    );
  throw new AppError(
    'not-a-clip',
    say`${path} is not a clip that can be opened; choose an MP4, MOV, MKV or AVI file.`,
    {
      detail,
    },
  );
}
