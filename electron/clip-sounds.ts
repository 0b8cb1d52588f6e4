import { LRUCache } from 'lru-cache';
import { say } from '../core/model/say.ts';
import { AppError } from '../core/model/errors.ts';
import type { SoundEnvelope } from '../core/model/sound.ts';

/** Reads how loud a clip is, until it is told to stop. @throws AppError `cancelled`, and what reading a clip may throw. */
export type ReadSound = (clipId: string, signal: AbortSignal) => Promise<SoundEnvelope | null>;

/** Then and now in two views of a few swings; an envelope takes at most 20 kB. */
const KEPT = 16;

interface Kept {
  readonly control: AbortController;
  readonly sound: Promise<SoundEnvelope | null>;
}

/** Owner of what is read of the clips' sound: each clip is read once, the few asked for last are kept. */
export class ClipSounds {
  readonly #read: ReadSound;
  readonly #kept = new LRUCache<string, Kept>({ max: KEPT, dispose: ({ control }) => control.abort() });
  #ended = false;

  constructor(read: ReadSound) {
    this.#read = read;
  }

  /** Null for a clip without sound. @throws AppError as `ReadSound`; what failed is tried again the next time. */
  async sound(clipId: string): Promise<SoundEnvelope | null> {
    if (this.#ended) throw new AppError('cancelled', say`Baybook is closing.`);
    const kept = this.#kept.get(clipId) ?? this.#begin(clipId);
    this.#kept.set(clipId, kept);
    try {
      return await kept.sound;
    } catch (cause) {
      if (this.#kept.peek(clipId) === kept) this.#kept.delete(clipId);
      throw cause;
    }
  }

  /** Forgets a clip and stops reading it; resolves when nothing reads its file any more. */
  async close(clipId: string): Promise<void> {
    const kept = this.#kept.peek(clipId);
    this.#kept.delete(clipId);
    await kept?.sound.catch(() => undefined);
  }

  /** The same for every clip; those asked for later are read anew. */
  async closeAll(): Promise<void> {
    await Promise.all([...this.#kept.rkeys()].map((clipId) => this.close(clipId)));
  }

  /** As `closeAll`, and reads none any more. */
  async end(): Promise<void> {
    this.#ended = true;
    await this.closeAll();
  }

  #begin(clipId: string): Kept {
    const control = new AbortController();
    const sound = this.#read(clipId, control.signal);
    // Whoever asked hears of it; who closes it does not.
    sound.catch(() => undefined);
    return { control, sound };
  }
}
