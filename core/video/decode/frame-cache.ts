/** Bytes of pictures kept in memory over all open clips. */
export const CACHE_BYTES = 256 * 1024 * 1024;

/** Pictures in memory, of several clips, within a limit of bytes; the one longest unused goes first. */
export class FrameCache {
  readonly #limit: number;
  /** In order of last use, the oldest first. */
  readonly #pictures = new Map<string, { readonly owner: symbol; readonly data: Uint8Array }>();
  readonly #names = new Map<symbol, string>();
  #bytes = 0;

  /** `limit` in bytes, > 0. A picture larger than that is not kept. */
  constructor(limit: number = CACHE_BYTES) {
    this.#limit = limit;
  }

  get bytes(): number {
    return this.#bytes;
  }

  /** The picture, which now counts as used, or null. */
  get(owner: symbol, frameIndex: number): Uint8Array | null {
    const key = this.#key(owner, frameIndex);
    const kept = this.#pictures.get(key);
    if (kept === undefined) return null;
    this.#pictures.delete(key);
    this.#pictures.set(key, kept);
    return kept.data;
  }

  /** Whether it is kept; does not count as use. */
  has(owner: symbol, frameIndex: number): boolean {
    return this.#pictures.has(this.#key(owner, frameIndex));
  }

  put(owner: symbol, frameIndex: number, data: Uint8Array): void {
    const key = this.#key(owner, frameIndex);
    this.#remove(key);
    if (data.length > this.#limit) return;
    this.#pictures.set(key, { owner, data });
    this.#bytes += data.length;
    for (const oldest of this.#pictures.keys()) {
      if (this.#bytes <= this.#limit) break;
      this.#remove(oldest);
    }
  }

  /** Forgets everything of one owner. */
  drop(owner: symbol): void {
    for (const [key, kept] of this.#pictures) if (kept.owner === owner) this.#remove(key);
    this.#names.delete(owner);
  }

  #remove(key: string): void {
    const kept = this.#pictures.get(key);
    if (kept === undefined) return;
    this.#pictures.delete(key);
    this.#bytes -= kept.data.length;
  }

  #key(owner: symbol, frameIndex: number): string {
    let name = this.#names.get(owner);
    if (name === undefined) {
      name = `${this.#named++}`;
      this.#names.set(owner, name);
    }
    return `${name}/${frameIndex}`;
  }

  #named = 0;
}
