import { say } from '../../core/model/say.ts';
import { AppError } from '../../core/model/errors.ts';
import { spansOf } from '../../core/time/damaged-spans.ts';
import type { DecodePass } from '../../core/time/settle-index.ts';
import type { HardwareTrials } from '../../core/video/decode/hardware-trials.ts';
import { readIndexedSource } from '../../core/video/index/clip-source.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import type { ProxyStore, ClipProxy } from '../../core/video/proxy/proxy-store.ts';
import { LARGEST_SIDE } from '../../core/video/proxy/proxy-size.ts';
import type { ProxySide } from '../../core/video/proxy/proxy-size.ts';
import type { LookedAt } from '../../core/video/proxy/copy-order.ts';
import type { CopyState, ServedFacts } from './contract.ts';
import { RestingPointer } from './resting-pointer.ts';

export interface CopyMakerOptions {
  readonly copies: ProxyStore;
  /** Which hardware may decode, tried after the first copy of each kind of clip; none when not given. */
  readonly decoders?: HardwareTrials;
  /** Resolves when nobody waits for a picture; the making pauses until then. */
  readonly giveWay: () => Promise<void>;
  readonly tell: (clip: string, state: CopyState) => void;
  /** A whole copy means that every frame of the clip was decoded once. Told once for each clip that is opened. */
  readonly decoded: (clip: string, pass: DecodePass) => void;
}

/** What is wanted of a clip's copy. */
export interface Copying {
  /** Only a few pictures are wanted: what there is of it is read, and none is made. */
  readonly glance: boolean;
  /** As `ProxySubject`. */
  readonly longest: ProxySide;
}

export const LOOKED_AT: Copying = { glance: false, longest: LARGEST_SIDE };

interface Entry {
  readonly clip: string;
  readonly facts: ServedFacts;
  readonly ffmpeg: Ffmpeg;
  readonly opening: Promise<ClipProxy>;
  /** Null until it is open. */
  copy: ClipProxy | null;
  stop: AbortController;
  doing: CopyState['doing'];
  sentence: string | null;
  /** Nobody looks closer yet: it is neither made nor told of. */
  glance: boolean;
  /** Where the hand rests in it. */
  readonly pointer: RestingPointer;
}

/** Frames between two reports, and of a long clip which part: each says of every frame whether it is there. */
const REPORT_EVERY = 12;
const REPORT_PART = 1 / 400;

/** Makes proxies in the background, one at a time, the clip looked at last first. */
export class CopyMaker {
  readonly #options: CopyMakerOptions;
  /** In the order of interest, the latest last. */
  readonly #entries = new Map<string, Entry>();
  /** Names of frames, also of clips that are not open yet. */
  readonly #named = new Map<string, readonly number[]>();
  #running: { readonly entry: Entry; readonly ended: Promise<void> } | null = null;
  #ended = false;

  constructor(options: CopyMakerOptions) {
    this.#options = options;
  }

  /** Opens the copy of a clip and has what is missing of it made; at a glance, only what there is of it is read. */
  async open(clip: string, facts: ServedFacts, ffmpeg: Ffmpeg, copying: Copying = LOOKED_AT): Promise<void> {
    const { sha256, index } = facts;
    const { glance, longest } = copying;
    if (sha256 === null || this.#ended || this.#entries.has(clip)) return;
    const entry: Entry = {
      ...{ clip, facts, ffmpeg, opening: this.#options.copies.open({ sha256, index, longest }), copy: null },
      ...{ stop: new AbortController(), doing: 'waiting', sentence: null, glance },
      pointer: new RestingPointer(this.#named.get(clip) ?? []),
    };
    this.#entries.set(clip, entry);
    try {
      entry.copy = await entry.opening;
    } catch (cause) {
      this.#fail(entry, cause);
      return;
    }
    if (this.#entries.get(clip) === entry && !entry.glance) this.#go(entry, entry.copy);
  }

  /** The copy is open, and wanted. */
  #go(entry: Entry, copy: ClipProxy): void {
    if (copy.complete) this.#whole(entry, copy);
    else {
      this.#tell(entry);
      this.#next();
    }
  }

  /** The copy of a clip once it is open; it may still be growing. */
  copyOf(clip: string): ClipProxy | null {
    return this.#entries.get(clip)?.copy ?? null;
  }

  /** Resolves when it is known whether there is a copy of the clip; never rejects. */
  async opened(clip: string): Promise<void> {
    await this.#entries.get(clip)?.opening.catch(() => undefined);
  }

  /** Whether the copy of a clip is being made or waits for that. */
  isBusy(clip: string): boolean {
    const entry = this.#entries.get(clip);
    return entry !== undefined && !entry.glance && (entry.doing === 'making' || entry.doing === 'waiting');
  }

  /** More than a glance is wanted of the clip: what is missing of its copy is made from now on. */
  lookCloser(clip: string): void {
    const entry = this.#entries.get(clip);
    if (entry?.glance !== true) return;
    entry.glance = false;
    if (entry.copy !== null) this.#go(entry, entry.copy);
  }

  /** The clip is being looked at: its copy comes before others that wait. */
  attend(clip: string): void {
    this.lookCloser(clip);
    const entry = this.#entries.get(clip);
    // What went wrong may be over: the clip was moved back, or there is room again.
    if (entry?.doing === 'failed') this.setMaking(clip, true);
    if (entry === undefined || [...this.#entries.keys()].at(-1) === clip) return;
    this.#entries.delete(clip);
    this.#entries.set(clip, entry);
  }

  /** A hand asked for a frame of the clip. */
  point(clip: string, frame: number): void {
    this.#entries.get(clip)?.pointer.move(frame);
  }

  /** These frames of the clip have a name now. */
  name(clip: string, frames: readonly number[]): void {
    this.#named.set(clip, frames);
    this.#entries.get(clip)?.pointer.name(frames);
  }

  /** Stops the making, or lets it go on where it stopped. */
  setMaking(clip: string, make: boolean): void {
    const entry = this.#entries.get(clip);
    if (entry === undefined || entry.doing === 'whole') return;
    if (!make) {
      entry.doing = 'stopped';
      entry.stop.abort();
      this.#tell(entry);
    } else if (entry.doing === 'stopped' || entry.doing === 'failed') {
      entry.doing = 'waiting';
      entry.sentence = null;
      entry.stop = new AbortController();
      this.#tell(entry);
      this.#next();
    }
  }

  /** Tells how far every copy is, to a window that came late. */
  tellAll(): void {
    for (const entry of this.#entries.values()) this.#tell(entry);
  }

  /** Stops the making for this clip and lets go of its copy. */
  async close(clip: string): Promise<void> {
    const entry = this.#entries.get(clip);
    if (entry === undefined) return;
    this.#entries.delete(clip);
    entry.stop.abort();
    if (this.#running?.entry === entry) await this.#running.ended;
    await entry.opening.then((copy) => copy.release()).catch(() => undefined);
  }

  async end(): Promise<void> {
    this.#ended = true;
    await Promise.all([...this.#entries.keys()].map((clip) => this.close(clip)));
  }

  #next(): void {
    if (this.#running !== null || this.#ended) return;
    const waiting = [...this.#entries.values()]
      .reverse()
      .find(({ doing, copy, glance }) => doing === 'waiting' && copy !== null && !glance);
    const copy = waiting?.copy ?? null;
    if (waiting === undefined || copy === null) return;
    waiting.doing = 'making';
    this.#tell(waiting);
    const ended = this.#make(waiting, copy).finally(() => {
      this.#running = null;
      this.#next();
    });
    this.#running = { entry: waiting, ended };
  }

  async #make(entry: Entry, copy: ClipProxy): Promise<void> {
    const { facts, ffmpeg, stop, pointer } = entry;
    let told = copy.count;
    const every = Math.max(REPORT_EVERY, facts.index.frames.length * REPORT_PART);
    const onFrame = (written: number): void => {
      if (written - told < every) return;
      told = written;
      if (entry.doing === 'making') this.#tell(entry);
    };
    try {
      const lookedAt = (): LookedAt => pointer.lookedAt();
      const run = { signal: stop.signal, giveWay: this.#options.giveWay, onFrame, lookedAt };
      const { copies, decoders } = this.#options;
      await copies.build(copy, { path: facts.path, ffmpeg, decoders }, run);
      this.#whole(entry, copy);
      await this.#tryHardware(entry);
    } catch (cause) {
      if (!stop.signal.aborted) this.#fail(entry, cause);
    }
  }

  /** Where nothing else is to be made, so that no clip waits for it. */
  async #tryHardware({ facts, ffmpeg, stop }: Entry): Promise<void> {
    const { decoders, giveWay } = this.#options;
    const isWaiting = [...this.#entries.values()].some(({ doing, glance }) => doing === 'waiting' && !glance);
    const { sha256 } = facts;
    if (decoders === undefined || sha256 === null || isWaiting || stop.signal.aborted) return;
    const source = facts.source ?? (await readIndexedSource(facts.path, facts.index, { ffmpeg }).catch(() => null));
    if (source !== null) await decoders.tryOnce(source, facts.index, { ffmpeg, signal: stop.signal, sha256, giveWay });
  }

  #whole(entry: Entry, copy: ClipProxy): void {
    if (this.#entries.get(entry.clip) !== entry) return;
    entry.doing = 'whole';
    this.#tell(entry);
    if (copy.result !== null) this.#options.decoded(entry.clip, copy.result);
  }

  #fail(entry: Entry, cause: unknown): void {
    entry.doing = 'failed';
    entry.sentence =
      cause instanceof AppError ? cause.message : say`The pictures for moving through this clip could not be kept.`;
    this.#tell(entry);
  }

  #tell(entry: Entry): void {
    if (entry.glance) return;
    const { frames } = entry.facts.index;
    const { doing, sentence, copy } = entry;
    const ready = copy === null ? [] : spansOf(frames.map(({ pts }) => copy.has(pts)));
    this.#options.tell(entry.clip, { doing, written: copy?.count ?? 0, total: frames.length, ready, sentence });
  }
}
