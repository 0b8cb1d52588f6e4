import type { Orientation } from './display-matrix.ts';

/**
 * A small picture of a clip to recognise it by, as it is stored: whoever shows it mirrors and turns it, and gives it the
 * clip's proportions. Nothing is measured on it.
 */
export interface FirstPicture extends Orientation {
  /** A JPEG file. */
  readonly data: Uint8Array<ArrayBuffer>;
}

/** What a decoder must be given to make the same picture. */
export interface CodedStart extends Orientation {
  /** As RFC 6381 writes it, "avc1.640028" for one. */
  readonly codec: string;
  /** The stream's own facts, from the `avcC` box (ISO/IEC 14496-15). */
  readonly description: Uint8Array<ArrayBuffer>;
  /** In the order of decoding; the first is a key picture, and none that the first shown one needs is left out. */
  readonly pictures: readonly CodedPicture[];
  /** All of them one after the other: many small pieces take long from process to process. */
  readonly data: Uint8Array<ArrayBuffer>;
  /** `time` of the picture that is shown. */
  readonly shown: number;
}

export interface CodedPicture {
  readonly key: boolean;
  /** Microseconds of the movie; less than that of the first shown one for what an edit hides. */
  readonly time: number;
  /** How many of the bytes are its own. */
  readonly bytes: number;
}
