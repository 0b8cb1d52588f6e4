import { stat } from 'node:fs/promises';
import { say } from '../../core/model/say.ts';
import { AppError } from '../../core/model/errors.ts';
import type { PictureQuality } from '../../core/model/picture-layout.ts';
import type { ClipSource } from '../../core/video/index/clip-source.ts';
import { readIndexedSource } from '../../core/video/index/clip-source.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { canBeOneRun, readKeyPictures } from '../../core/video/decode/key-pictures.ts';
import { createFrameCache } from '../../core/video/decode/frame-cache.ts';
import { layoutOf } from '../../core/video/decode/layout-of.ts';
import { decodeStill } from '../../core/video/decode/read-still.ts';
import { openFrameWindow } from '../../core/video/decode/frame-window.ts';
import type { FrameWindow, WindowPicture } from '../../core/video/decode/frame-window.ts';
import type { ClipProxy } from '../../core/video/proxy/proxy-store.ts';
import { STRIP_SIDE, proxyLayout, proxySize } from '../../core/video/proxy/proxy-size.ts';
import type { ProxySide } from '../../core/video/proxy/proxy-size.ts';
import type { ServedFacts } from './contract.ts';
import { PictureQueue } from './picture-queue.ts';
import { StripPictures } from './strip-pictures.ts';
import type { MakeAll } from './strip-pictures.ts';

/** Bytes kept over all clips: some seconds of proxy pictures, and the sharp frames around where a coach looks. */
const PROXY_BYTES = 24 * 1024 * 1024;
const SHARP_BYTES = 112 * 1024 * 1024;
const proxyCache = createFrameCache(PROXY_BYTES);
const sharpCache = createFrameCache(SHARP_BYTES);

/** Pictures made by themselves at the same time, over all clips; ffmpeg itself works on several cores. */
const singles = new PictureQueue(2);

/** One clip that pictures are wanted of: from its proxy where that has them, else from ffmpeg on the clip itself. */
export class ServedClip {
  readonly facts: ServedFacts;
  readonly #ffmpeg: Ffmpeg;
  readonly #copy: () => ClipProxy | null;
  #windows: Readonly<Record<PictureQuality, FrameWindow>>;
  readonly #closing = new AbortController();
  readonly #making = new Set<Promise<unknown>>();
  readonly #strip: StripPictures;
  readonly #longest: ProxySide;
  #source: Promise<ClipSource> | null;

  /** `copy` gives the proxy, which may still be growing, or null while there is none; `longest`: of proxy pictures. */
  constructor(facts: ServedFacts, ffmpeg: Ffmpeg, copy: () => ClipProxy | null, longest: ProxySide) {
    this.#longest = longest;
    this.facts = facts;
    this.#ffmpeg = ffmpeg;
    this.#copy = copy;
    this.#source = facts.source === null ? null : Promise.resolve(facts.source);
    this.#windows = this.#openWindows();
    this.#strip = new StripPictures(this.#decodeKeys);
  }

  /** Whether ffmpeg is at work for a picture that somebody waits for. */
  get busy(): boolean {
    return this.#windows.proxy.busy || this.#windows.sharp.busy || this.#strip.busy;
  }

  /**
   * The picture of a frame of the clip. @throws AppError `clip-changed` or `clip-moved` when the file is not as it was opened (the
   * program then looks closer), and as `FrameWindow.frame`.
   */
  async picture(ofClip: number, quality: PictureQuality, signal: AbortSignal): Promise<WindowPicture> {
    const frame = ofClip + this.facts.first;
    if (quality === 'proxy') {
      const copied = await this.#fromCopy(frame);
      if (copied !== null) return copied;
    }
    const window = this.#windows[quality];
    if (window.kept(frame) === null) await this.#requireUnchanged();
    return window.frame(frame, { signal });
  }

  /**
   * The picture of one frame alone, without those around it and without a word to what stands ready. @throws AppError as
   * `picture`, and as `decodeStill`.
   */
  async single(ofClip: number, quality: PictureQuality, dropped: AbortSignal): Promise<WindowPicture> {
    const frame = ofClip + this.facts.first;
    const kept = (quality === 'proxy' ? await this.#fromCopy(frame) : null) ?? this.#windows[quality].kept(frame);
    if (kept !== null) return kept;
    const signal = AbortSignal.any([dropped, this.#closing.signal]);
    return this.#owned(
      singles.ask({ urgent: quality === 'proxy', signal }, () => this.#decode(frame, quality, signal)),
    );
  }

  /** The picture of a key picture for a strip, small; larger where it is there already. @throws AppError as `single`. */
  async onStrip(ofClip: number, signal: AbortSignal): Promise<WindowPicture> {
    const frame = ofClip + this.facts.first;
    const kept = (await this.#fromCopy(frame)) ?? this.#windows.proxy.kept(frame);
    return kept ?? (await this.#strip.picture(frame, signal)) ?? this.single(ofClip, 'proxy', signal);
  }

  /** Lets go of what stands ready; pictures may be asked for again. */
  async rest(): Promise<void> {
    const { proxy, sharp } = this.#windows;
    this.#windows = this.#openWindows();
    await Promise.all([proxy.close(), sharp.close()]);
  }

  async close(): Promise<void> {
    this.#closing.abort();
    await Promise.all([this.#windows.proxy.close(), this.#windows.sharp.close(), Promise.allSettled(this.#making)]);
  }

  #openWindows(): Readonly<Record<PictureQuality, FrameWindow>> {
    const { path, index } = this.facts;
    const [ffmpeg, longest] = [this.#ffmpeg, this.#longest];
    const source = (): Promise<ClipSource> => this.#findSource();
    return {
      proxy: openFrameWindow(path, index, { ffmpeg, source, kind: 'proxy', longest, cache: proxyCache }),
      sharp: openFrameWindow(path, index, { ffmpeg, source, kind: 'sharp', cache: sharpCache }),
    };
  }

  /** Frames are those of the file from here on. */
  async #fromCopy(frame: number): Promise<WindowPicture | null> {
    const pts = this.facts.index.frames[frame]?.pts;
    const copy = this.#copy();
    if (pts === undefined || copy === null || !copy.has(pts)) return null;
    const data = await copy.read(pts);
    return data === null ? null : { layout: proxyLayout(copy), data };
  }

  async #decode(frame: number, quality: PictureQuality, signal: AbortSignal): Promise<WindowPicture> {
    await this.#requireUnchanged();
    const { index } = this.facts;
    const source = await this.#findSource();
    const longest = this.#longest;
    const layout = layoutOf(quality, index, source, longest);
    const still = await decodeStill(source, index, frame, { ffmpeg: this.#ffmpeg, as: layout.kind, longest, signal });
    if (still === null)
      throw new AppError(
        'no-such-frame',
        say`There is no frame ${frame}; the clip has frames 0 to ${index.frames.length - 1}.`,
      );
    const picture = { layout, data: still.data };
    this.#windows[quality].keep(frame, picture);
    return picture;
  }

  /** Key pictures in one run; none where one run each is as good, or nothing else can be done. */
  readonly #decodeKeys: MakeAll = (frames, dropped, deliver) => {
    const signal = AbortSignal.any([dropped, this.#closing.signal]);
    const make = async (): Promise<void> => {
      await this.#requireUnchanged();
      const { index } = this.facts;
      const source = await this.#findSource();
      if (!canBeOneRun(source)) return;
      const layout = proxyLayout(proxySize(index, STRIP_SIDE));
      const options = { ffmpeg: this.#ffmpeg, signal };
      for await (const { frame, data } of readKeyPictures(source, index, frames, options))
        deliver(frame, { layout, data });
    };
    return this.#owned(singles.ask({ urgent: true, signal }, make));
  };

  /** Closing waits for it. */
  #owned<T>(making: Promise<T>): Promise<T> {
    this.#making.add(making);
    return making.finally(() => this.#making.delete(making));
  }

  /** Looked for once for both windows; what failed is tried again with the next picture. */
  #findSource(): Promise<ClipSource> {
    const { path, index } = this.facts;
    this.#source ??= readIndexedSource(path, index, { ffmpeg: this.#ffmpeg }).catch((cause: unknown) => {
      this.#source = null;
      throw cause;
    });
    return this.#source;
  }

  async #requireUnchanged(): Promise<void> {
    const { path, bytes, modifiedMs } = this.facts;
    const found = await stat(path).catch(() => null);
    if (found === null)
      throw new AppError('clip-moved', say`The clip is not at ${path} any more.`, { detail: { path } });
    if (found.size !== bytes || found.mtimeMs !== modifiedMs)
      throw new AppError('clip-changed', say`The file ${path} was changed since it was opened.`, { detail: { path } });
  }
}
