import type { PictureQuality } from '../../core/model/picture-layout.ts';
import { FETCHED_AHEAD } from '../../core/model/read-ahead.ts';
import { createPictureCache } from './picture-cache.ts';
import type { Picture } from './picture-cache.ts';

/** Brings the picture of one frame; stops early when `signal` fires. */
export type LoadPicture<P extends Picture> = (
  index: number,
  quality: PictureQuality,
  signal: AbortSignal,
) => Promise<P>;

/** A request for a picture. The keeper answers by `show`, first with the proxy picture, later with the sharp one. */
export interface FramePictures {
  /**
   * Asks for a frame. The latest request wins; what an earlier one still loads is dropped, unless it lies ahead. `every` > 0
   * is for a run, which goes on by so many frames: those are fetched ahead, and none is made sharp on its way past.
   */
  want(index: number, every?: number): void;
  /**
   * Whether the hand needs the machine for itself, as while it drags a mark: then only the wanted picture is made, and none
   * for later.
   */
  hold(on: boolean): void;
  /** Asks once more for the frame that is wanted, after what kept it from coming was mended. */
  wantAgain(): void;
  /** Closes every picture and stops loading. */
  close(): void;
}

export interface FramePicturesOptions<P extends Picture> {
  readonly frameCount: number;
  readonly load: LoadPicture<P>;
  /** Called with a picture that stays open until the next call. */
  readonly show: (picture: P, index: number, quality: PictureQuality) => void;
  /** The frame has no picture; what is shown is another frame's. */
  readonly failed: (error: unknown, index: number) => void;
  /** How long a frame must rest before its sharp picture is fetched, in milliseconds. */
  readonly restMs?: number;
  /** Only the sharp picture of the wanted frame, at once: nothing before it and nothing for later. */
  readonly exactOnly?: boolean;
}

/** Of decoded pictures: 24 proxy pictures of 1280 x 720; 5 sharp ones of 3840 x 2160, the frame and its neighbours. */
const PROXY_BYTES = 88 * 1024 * 1024;
const SHARP_BYTES = 160 * 1024 * 1024;
const { ahead: AHEAD, atOnce: AT_ONCE } = FETCHED_AHEAD.proxy;
const { around: SHARP_AROUND, restMs: REST_MS } = FETCHED_AHEAD.sharp;

/** Keeps the pictures near the frame that is looked at, and shows the right one. */
export function createFramePictures<P extends Picture>(options: FramePicturesOptions<P>): FramePictures {
  const { frameCount, load, show, failed, exactOnly = false, restMs = exactOnly ? 0 : REST_MS } = options;
  let onScreen: P | null = null;
  /** The picture on screen, once it is kept no longer: it is closed when another one takes its place there. */
  let loose: P | null = null;
  const drop = (picture: P): void => {
    if (picture === onScreen) loose = picture;
    else picture.close();
  };
  const pictureOf = (picture: P): P => picture;
  const proxy = createPictureCache<number, P>({ bytes: PROXY_BYTES, pictureOf, drop });
  const sharp = createPictureCache<number, P>({ bytes: SHARP_BYTES, pictureOf, drop });
  const proxyLoads = new Map<number, AbortController>();
  let sharpLoad: { readonly index: number; readonly control: AbortController } | null = null;
  let rest: ReturnType<typeof setTimeout> | null = null;
  let wanted = -1;
  let direction = 1;
  /** Frames from one picture of a run to the next; 0 where the hand is the one that moves. */
  let pass = 0;
  let held = false;
  let closed = false;

  function present(picture: P, index: number, quality: PictureQuality): void {
    onScreen = picture;
    show(picture, index, quality);
    if (loose === null || loose === picture) return;
    loose.close();
    loose = null;
  }

  function keep(cache: typeof proxy, index: number, picture: P): void {
    // What is looked at counts as used, however long it is looked at.
    cache.get(wanted);
    cache.set(index, picture);
  }

  function stride(): number {
    return pass > 0 ? pass : direction;
  }

  /** Fetches what is missing of the wanted proxy picture and of those ahead, the wanted first. */
  function fetchProxy(): void {
    if (exactOnly) return;
    for (let step = 0; step <= (held ? 0 : AHEAD) && proxyLoads.size < AT_ONCE; step += 1) {
      const index = wanted + step * stride();
      if (index < 0 || index >= frameCount) return;
      if (proxy.has(index) || proxyLoads.has(index) || (step === 0 && sharp.has(index))) continue;
      void loadProxy(index);
      // Nothing is fetched ahead before there is something to show.
      if (step === 0) return;
    }
  }

  async function loadProxy(index: number): Promise<void> {
    const control = new AbortController();
    proxyLoads.set(index, control);
    let came = false;
    try {
      const picture = await load(index, 'proxy', control.signal);
      if (closed || control.signal.aborted) return picture.close();
      came = true;
      keep(proxy, index, picture);
      if (index === wanted && !sharp.has(index)) present(picture, index, 'proxy');
    } catch {
      // Passed over by a newer request, or the frame cannot be made: then the sharp picture says why.
    } finally {
      if (proxyLoads.get(index) === control) proxyLoads.delete(index);
    }
    if (closed || control.signal.aborted) return;
    if (came) fetchProxy();
    // In a run a frame is settled only where it has no small picture: the sharp one then says why.
    if (index === wanted && rest === null && !(came && pass > 0)) settle();
  }

  async function loadSharp(index: number): Promise<void> {
    const control = new AbortController();
    sharpLoad = { index, control };
    try {
      const picture = await load(index, 'sharp', control.signal);
      if (closed || control.signal.aborted) return picture.close();
      keep(sharp, index, picture);
      if (index === wanted) present(picture, index, 'sharp');
    } catch (error) {
      if (!control.signal.aborted && index === wanted) failed(error, index);
      return;
    } finally {
      if (sharpLoad?.control === control) sharpLoad = null;
    }
    fetchSharpAround();
  }

  /** While the frame rests: its sharp neighbours, one after the other, first where the travel goes. */
  function fetchSharpAround(): void {
    if (closed || held || exactOnly || sharpLoad !== null || rest !== null) return;
    for (let step = 1; step <= SHARP_AROUND; step += 1)
      for (const index of [wanted + step * direction, wanted - step * direction])
        if (index >= 0 && index < frameCount && !sharp.has(index)) {
          void loadSharp(index);
          return;
        }
  }

  function settle(): void {
    rest = null;
    // Two decodes of the same group at once would take twice as long each: the small picture first, where it must be made.
    if (proxyLoads.has(wanted) && !proxy.has(wanted)) return;
    if (sharp.has(wanted)) fetchSharpAround();
    else if (sharpLoad?.index !== wanted) void loadSharp(wanted);
  }

  function dropPassed(): void {
    for (const [index, control] of proxyLoads) {
      const ahead = (index - wanted) / stride();
      if (ahead >= 0 && ahead <= AHEAD && Number.isInteger(ahead)) continue;
      control.abort();
      proxyLoads.delete(index);
    }
    if (sharpLoad !== null && sharpLoad.index !== wanted) {
      sharpLoad.control.abort();
      sharpLoad = null;
    }
    if (rest !== null) clearTimeout(rest);
    rest = null;
  }

  function want(index: number, every = 0): void {
    if (closed || (index === wanted && every === pass)) return;
    if (index === wanted) {
      pass = every;
      // A run that ends here: now the frame rests.
      if (every === 0 && rest === null) rest = setTimeout(settle, restMs);
      return;
    }
    direction = wanted >= 0 && index < wanted ? -1 : 1;
    wanted = index;
    pass = every;
    dropPassed();
    if (pass === 0) rest = setTimeout(settle, restMs);
    const exact = sharp.get(index);
    const small = exact === undefined ? proxy.get(index) : undefined;
    if (exact !== undefined) present(exact, index, 'sharp');
    else if (small !== undefined) present(small, index, 'proxy');
    fetchProxy();
  }

  return {
    want,
    hold(on) {
      if (closed || on === held) return;
      held = on;
      if (held && sharpLoad !== null && sharpLoad.index !== wanted) {
        sharpLoad.control.abort();
        sharpLoad = null;
      } else if (!held && wanted >= 0) {
        fetchProxy();
        if (sharp.has(wanted)) fetchSharpAround();
      }
    },
    wantAgain() {
      const index = wanted;
      wanted = -1;
      if (index >= 0) want(index);
    },
    close() {
      closed = true;
      if (rest !== null) clearTimeout(rest);
      sharpLoad?.control.abort();
      for (const control of proxyLoads.values()) control.abort();
      onScreen = null;
      loose?.close();
      proxy.clear();
      sharp.clear();
    },
  };
}
