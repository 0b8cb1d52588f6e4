import { boxes } from './movie-boxes.ts';

/** What one kind of pictures of a track is: the codec by its four letters, and the boxes that say more of it. */
export interface SampleEntry {
  readonly type: string;
  readonly more: DataView;
}

/** What a sample of pictures begins with before its boxes (ISO/IEC 14496-12, 12.1.3). */
const SAMPLE_ENTRY_BYTES = 78;

/** The first kind that an stsd box lists (8.5.2); `kinds`: what it holds. Null where it is not all there. */
export function sampleEntryOf(kinds: DataView): SampleEntry | null {
  if (kinds.byteLength < 8) return null;
  const [entry] = boxes(new DataView(kinds.buffer, kinds.byteOffset + 8, kinds.byteLength - 8));
  if (entry === undefined || entry.content.byteLength < SAMPLE_ENTRY_BYTES) return null;
  const { buffer, byteOffset, byteLength } = entry.content;
  const more = new DataView(buffer, byteOffset + SAMPLE_ENTRY_BYTES, byteLength - SAMPLE_ENTRY_BYTES);
  return { type: entry.type, more };
}
