import type { Size } from './view-transform.ts';

/** A decoded picture that must be closed when it is no longer shown or kept. */
export interface Picture extends Size {
  close(): void;
}

/** Four bytes a pixel is what a decoded picture takes. */
const BYTES_A_PIXEL = 4;

/** Decoded pictures by frame, within a limit of bytes; the one longest unused is closed first. */
export class PictureShelf<P extends Picture> {
  readonly #limit: number;
  readonly #inUse: (picture: P) => boolean;
  /** In the order of use, the last used last. */
  readonly #pictures = new Map<number, P>();
  #bytes = 0;

  /** `inUse` pictures are not closed, whatever the limit says. */
  constructor(limit: number, inUse: (picture: P) => boolean) {
    this.#limit = limit;
    this.#inUse = inUse;
  }

  get bytes(): number {
    return this.#bytes;
  }

  has(index: number): boolean {
    return this.#pictures.has(index);
  }

  /** The picture, which stays here and now counts as used, or null. */
  take(index: number): P | null {
    const picture = this.#pictures.get(index);
    if (picture === undefined) return null;
    this.#pictures.delete(index);
    this.#pictures.set(index, picture);
    return picture;
  }

  /** Takes a picture over. One that alone exceeds the limit is kept as long as it is in use or the newest. */
  put(index: number, picture: P): void {
    this.#remove(index);
    this.#pictures.set(index, picture);
    this.#bytes += bytesOf(picture);
    for (const [oldest, old] of this.#pictures) {
      if (this.#bytes <= this.#limit) return;
      if (oldest !== index && !this.#inUse(old)) this.#remove(oldest);
    }
  }

  clear(): void {
    for (const index of [...this.#pictures.keys()]) this.#remove(index);
  }

  #remove(index: number): void {
    const picture = this.#pictures.get(index);
    if (picture === undefined) return;
    this.#pictures.delete(index);
    this.#bytes -= bytesOf(picture);
    picture.close();
  }
}

function bytesOf({ width, height }: Size): number {
  return width * height * BYTES_A_PIXEL;
}
