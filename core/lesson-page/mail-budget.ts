/**
 * Bytes of all that is attached, before base64: mail servers mostly take 10 MB, and base64 with its line ends makes 78 bytes of
 * 57 (RFC 2045, 6.8), so 7.3 MB become 10.0.
 */
export const DEFAULT_MAIL_BYTES = 7_300_000;

/** For the texts and headers of the mail, before base64. */
const TEXT_BYTES = 60_000;
/** A still of fewer bytes shows nothing. */
const LEAST_STILL_BYTES = 20_000;

/** Bytes that each still may have. */
export function shareOf(most: number, pdfBytes: number, stills: number): number {
  return Math.max(LEAST_STILL_BYTES, Math.floor((most - pdfBytes - TEXT_BYTES) / Math.max(1, stills)));
}

/** As many of the stills, the first first, as go into `room` bytes, and how many do not. */
export function stillsThatFit<Still extends { readonly bytes: Uint8Array }>(
  stills: readonly Still[],
  room: number,
): { readonly kept: readonly Still[]; readonly left: number } {
  let free = room - TEXT_BYTES;
  const kept: Still[] = [];
  for (const still of stills) {
    if (still.bytes.length > free) break;
    free -= still.bytes.length;
    kept.push(still);
  }
  return { kept, left: stills.length - kept.length };
}
