import type { Size } from './view-transform.ts';

/** A decoded picture that must be closed when it is no longer shown or kept. */
export interface Picture extends Size {
  close(): void;
}

export type Quality = 'quick' | 'exact';

/** Decodes one frame; stops early when `signal` fires. */
export type LoadPicture<P extends Picture> = (index: number, quality: Quality, signal: AbortSignal) => Promise<P>;

/** A wish for a picture. The keeper answers by `show`, first with the quick one, later with the exact one. */
export interface FramePictures {
  /** Asks for a frame. The latest wish wins; what an earlier one still loads is dropped. */
  want(index: number): void;
  /** Asks once more for the frame that is wanted, after what kept it from coming was mended. */
  wantAgain(): void;
  /** Closes every picture and stops loading. */
  close(): void;
}

export interface FramePicturesOptions<P extends Picture> {
  readonly frameCount: number;
  readonly load: LoadPicture<P>;
  /** Called with a decoded picture that stays open until the next call. */
  readonly show: (picture: P, index: number, quality: Quality) => void;
  readonly failed: (error: unknown, index: number) => void;
  /** How long a frame must rest before its exact picture is fetched, in milliseconds. */
  readonly restMs?: number;
}

/** Long enough that stepping with a held key stays quick, short enough not to be noticed when it ends. */
export const REST_MS = 150;
/** Frames fetched ahead in the direction of travel. */
const AHEAD = 3;
/** Quick pictures that are kept decoded: 40 frames of 1920 x 1080 are 330 MB at 4 bytes a pixel. */
const KEPT = 40;

/** Keeps the pictures near the frame that is looked at, and shows the right one. */
export function createFramePictures<P extends Picture>(options: FramePicturesOptions<P>): FramePictures {
  const { frameCount, load, show, failed, restMs = REST_MS } = options;
  const quick = new Map<number, P>();
  const loading = new Map<number, AbortController>();
  let exact: { index: number; picture: P } | null = null;
  let exactLoading: AbortController | null = null;
  let rest: ReturnType<typeof setTimeout> | null = null;
  let wanted = -1;
  let direction = 1;
  let closed = false;
  let onScreen: P | null = null;

  function present(picture: P, index: number, quality: Quality): void {
    onScreen = picture;
    show(picture, index, quality);
  }

  function keep(index: number, picture: P): void {
    quick.get(index)?.close();
    quick.delete(index);
    quick.set(index, picture);
    for (const [oldest, old] of quick) {
      if (quick.size <= KEPT) break;
      if (old === onScreen) continue;
      quick.delete(oldest);
      old.close();
    }
  }

  async function fetchQuick(index: number): Promise<void> {
    if (quick.has(index) || loading.has(index)) return;
    const controller = new AbortController();
    loading.set(index, controller);
    try {
      const picture = await load(index, 'quick', controller.signal);
      if (closed || controller.signal.aborted) return picture.close();
      keep(index, picture);
      if (index === wanted && exact?.index !== index) present(picture, index, 'quick');
    } catch {
      // Passed over by a newer wish, or the frame cannot be made: then the exact picture says why.
    } finally {
      loading.delete(index);
    }
  }

  async function fetchExact(index: number): Promise<void> {
    const controller = new AbortController();
    exactLoading = controller;
    try {
      const picture = await load(index, 'exact', controller.signal);
      if (closed || controller.signal.aborted || index !== wanted) return picture.close();
      const before = exact;
      exact = { index, picture };
      present(picture, index, 'exact');
      before?.picture.close();
    } catch (error) {
      if (!controller.signal.aborted && index === wanted) failed(error, index);
    }
  }

  async function fetchAhead(): Promise<void> {
    const from = wanted;
    for (let step = 1; step <= AHEAD; step += 1) {
      const index = from + step * direction;
      if (closed || wanted !== from || index < 0 || index >= frameCount) return;
      await fetchQuick(index);
    }
  }

  function want(index: number): void {
    if (closed || index === wanted) return;
    direction = wanted >= 0 && index < wanted ? -1 : 1;
    wanted = index;
    for (const [other, controller] of loading) if (other !== index) controller.abort();
    exactLoading?.abort();
    if (rest !== null) clearTimeout(rest);
    rest = setTimeout(() => void fetchExact(index), restMs);
    if (exact?.index === index) {
      present(exact.picture, index, 'exact');
      clearTimeout(rest);
      return;
    }
    const known = quick.get(index);
    if (known !== undefined) present(known, index, 'quick');
    void fetchQuick(index).then(fetchAhead);
  }

  return {
    want,
    wantAgain() {
      const index = wanted;
      wanted = -1;
      if (index >= 0) want(index);
    },
    close() {
      closed = true;
      if (rest !== null) clearTimeout(rest);
      exactLoading?.abort();
      for (const controller of loading.values()) controller.abort();
      for (const picture of quick.values()) picture.close();
      quick.clear();
      exact?.picture.close();
      exact = null;
    },
  };
}
