import { AppError } from '../core/model/errors.ts';
import type { FramePicture } from './clip-protocol.ts';
import { FrameQueue } from './frame-queue.ts';
import type { FrameRequest } from './frame-url.ts';

/** A clip whose frames are shown on the sheet. Indices are of shown frames, from 0. */
export interface OpenClip {
  /** PNG. @throws AppError `no-such-frame` and what reading a clip may throw. */
  exact(index: number): Promise<Uint8Array>;
  /** Stops what is being made and gives back what the clip holds. */
  close(): Promise<void>;
}

/** Two views of then and now: what a coach looks at side by side. */
const KEPT_OPEN = 4;
/** Exact pictures made at the same time; ffmpeg itself works on several cores. */
const EXACT_AT_ONCE = 2;

/** Owner of the clips whose stills are shown: the few used last are kept, the others closed. */
export class OpenClips {
  readonly #open: (clipId: string) => Promise<OpenClip>;
  /** In the order of use, the last used last. */
  readonly #clips = new Map<string, Promise<OpenClip>>();
  readonly #exact = new FrameQueue<Uint8Array>(EXACT_AT_ONCE);
  #closed = false;

  /** `open` finds a clip by its id. @throws AppError `no-such-record`, `clip-moved`, `clip-changed`. */
  constructor(open: (clipId: string) => Promise<OpenClip>) {
    this.#open = open;
  }

  /** The picture of a frame. */
  async picture({ clipId, index }: FrameRequest): Promise<FramePicture> {
    const clip = await this.#use(clipId);
    const bytes = await this.#exact.ask(`${clipId}/${index}`, () => clip.exact(index));
    return { bytes: ownBytes(bytes), type: 'image/png' };
  }

  /** Closes a clip, before its file may go; nothing happens when it is not open. */
  async close(clipId: string): Promise<void> {
    const clip = this.#clips.get(clipId);
    this.#clips.delete(clipId);
    // One that never opened holds nothing.
    await clip?.then((opened) => opened.close()).catch(() => undefined);
  }

  /** Closes every clip; those asked for later are opened anew. */
  async closeAll(): Promise<void> {
    await Promise.all([...this.#clips.keys()].map((clipId) => this.close(clipId)));
  }

  /** As `closeAll`, and opens none any more. */
  async end(): Promise<void> {
    this.#closed = true;
    await this.closeAll();
  }

  async #use(clipId: string): Promise<OpenClip> {
    if (this.#closed) throw new AppError('cancelled', 'Baybook is closing.');
    const clip = this.#clips.get(clipId) ?? this.#open(clipId);
    this.#clips.delete(clipId);
    this.#clips.set(clipId, clip);
    const [longestUnused] = this.#clips.keys();
    if (this.#clips.size > KEPT_OPEN && longestUnused !== undefined) void this.close(longestUnused);
    try {
      return await clip;
    } catch (cause) {
      // Not to be remembered: the file may be put back.
      if (this.#clips.get(clipId) === clip) this.#clips.delete(clipId);
      throw cause;
    }
  }
}

/** A Response takes bytes in a buffer of their own kind; a view on shared memory would have to be copied. */
function ownBytes(bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  return bytes.buffer instanceof ArrayBuffer
    ? new Uint8Array(bytes.buffer, bytes.byteOffset, bytes.byteLength)
    : new Uint8Array(bytes);
}
