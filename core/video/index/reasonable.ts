import { inFigures } from '../../model/language.ts';
import { say } from '../../model/say.ts';
import { AppError } from '../../model/errors.ts';

/** Bytes of the largest clip that is opened: some hours in full high definition. Longer than any lesson, ours. */
const MOST_BYTES = 16 * 1024 ** 3;
/** Pixels of the largest pictures that are opened: 8192 x 4320, what is sold as 8K. Decoders keep several at once. */
export const MOST_PIXELS = 8192 * 4320;
/** Below this many bytes a file with holes is read as quickly as any. */
const HOLES_MATTER = 64 * 1024 ** 2;
/** A clip cannot be packed any more, so that a disk that packs files holds nearly all of its bytes. */
const LEAST_HELD = 0.5;

/**
 * Refuses a file that would keep the machine busy for minutes without an outcome: one that is too large, or that is mostly
 * holes (a copy that was never finished, or one that still lies with a cloud service). `heldBytes` as in `FileFacts`.
 *
 * @throws AppError `too-large`, `clip-damaged`.
 */
export function refuseUnreasonableFile(path: string, bytes: number, heldBytes: number | null): void {
  const detail = { path, bytes, heldBytes };
  if (bytes > MOST_BYTES)
    throw new AppError(
      'too-large',
      say`${path} has ${gigabytes(bytes)} GB; Baybook opens clips of up to ${gigabytes(MOST_BYTES)} GB. Cut the swings out of it with the camera or the phone first.`,
      { detail },
    );
  if (heldBytes !== null && bytes > HOLES_MATTER && heldBytes < LEAST_HELD * bytes)
    throw new AppError(
      'clip-damaged',
      say`${path} is not all there: most of its ${gigabytes(bytes)} GB are missing. Wait until all of it has come, or copy it from the camera again.`,
      { detail },
    );
}

/**
 * Refuses a clip whose pictures ffmpeg did not begin to decode because of `-max_pixels`, which its report says.
 *
 * @throws AppError `too-large`.
 */
export function refuseLargePictures(path: string, report: string): void {
  const said = /Picture size (\d+)x(\d+) exceeds specified max pixel count/.exec(report);
  if (said === null) return;
  const [width, height] = [Number(said[1]), Number(said[2])];
  throw new AppError(
    'too-large',
    say`The pictures of ${path} have ${width} x ${height} pixels; Baybook opens up to 8192 x 4320. Film or export the clip smaller.`,
    { detail: { path, width, height } },
  );
}

/** For sentences: 0.1 at the least. */
function gigabytes(bytes: number): string {
  return inFigures(
    Math.max(0.1, bytes / 1024 ** 3)
      .toFixed(1)
      .replace(/\.0$/, ''),
  );
}
