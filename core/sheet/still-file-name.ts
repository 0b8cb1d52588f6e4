import type { View } from '../model/words.ts';
import type { StillFormat } from '../report/still-file.ts';

export interface StillName {
  readonly firstName: string;
  /** ISO 8601 day. */
  readonly date: string;
  readonly view: View;
  /** Checkpoints and whatever else tells this still from its neighbours, e.g. ["address", "top"] or ["then-now", "top"]. */
  readonly parts: readonly string[];
  readonly format: StillFormat;
}

const EXTENSIONS: Readonly<Record<StillFormat, string>> = { png: 'png', jpeg: 'jpg' };
/** In UTF-8 bytes: file systems take 255 for a whole name. */
const MOST_NAME_BYTES = 60;
const MOST_PARTS_BYTES = 120;

/**
 * A file name for a still, e.g. "Mara-2026-05-12-down-the-line-top.png". Letters and digits of any script are kept, all
 * else becomes a hyphen, so a name can hold no folder, no ".." and nothing a file system or a mail program trips over.
 */
export function stillFileName(name: StillName): string {
  const whole = [
    safe(name.firstName, MOST_NAME_BYTES) || 'student',
    safe(name.date, MOST_NAME_BYTES),
    name.view,
    safe(name.parts.join('-'), MOST_PARTS_BYTES),
  ];
  return `${whole.filter((part) => part !== '').join('-')}.${EXTENSIONS[name.format]}`;
}

function safe(text: string, mostBytes: number): string {
  const plain = text.normalize('NFC').replaceAll(/[^\p{L}\p{M}\p{N}]+/gu, '-');
  let kept = '';
  for (const character of plain) {
    if (Buffer.byteLength(kept + character) > mostBytes) break;
    kept += character;
  }
  return kept.replaceAll(/^[-\p{M}]+|-+$/gu, '');
}
