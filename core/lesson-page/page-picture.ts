import type { Checkpoint, View } from '../model/words.ts';

/** A still that goes along with a lesson page. */
export interface PagePicture {
  readonly view: View;
  readonly checkpoint: Checkpoint;
  /** A JPEG file. */
  readonly bytes: Uint8Array;
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  /** What it shows, with its numbers. */
  readonly alt: string;
  /** Of its file, without folder. */
  readonly name: string;
}
