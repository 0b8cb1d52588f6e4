import type { Page } from 'playwright-core';

/** Hands in the page that clap: with every clap that the microphone hears, a line is drawn on the bench. */

/** What became of one clap. */
export interface Clapped {
  /** When the line was drawn, ms of the page's clock, and how late that was after its clap. */
  readonly at: number;
  readonly late: number;
  /** Where in the window: upright, at this place from the left. */
  readonly left: number;
}

/** What the page has; no library of types knows it. */
declare class MediaStreamTrackProcessor {
  constructor(options: { readonly track: MediaStreamTrack });
  readonly readable: ReadableStream<{
    /** When it was captured, microseconds of a steady clock of its own. */
    readonly timestamp: number;
    readonly sampleRate: number;
    readonly numberOfFrames: number;
    copyTo(samples: Float32Array, options: { readonly planeIndex: number; readonly format: 'f32-planar' }): void;
    close(): void;
  }>;
}

/**
 * Listens to whatever microphone the program opens from now on: the same stream, but each heap of sound by the time of its capture,
 * and none of the program's code. A graph of sound, as the program's, has a queue that may be long on a busy machine. To be called
 * before a recording begins. `every`: ms from one clap to the next.
 */
export async function listenToClaps(page: Page, every: number): Promise<void> {
  await page.evaluate((every) => {
    const devices = navigator.mediaDevices;
    const open = devices.getUserMedia.bind(devices);
    /** When a clap was heard that came soonest of the last ones, ms: a busy page hears late, never early. */
    const heard: number[] = [];
    const listen = async (track: MediaStreamTrack): Promise<void> => {
      const reader = new MediaStreamTrackProcessor({ track }).readable.getReader();
      /** How far the page's clock is before that of captures, by the heap that came soonest. */
      let ahead = Infinity;
      const captured: number[] = [];
      for (let heap = await reader.read(); !heap.done; heap = await reader.read()) {
        const { timestamp, numberOfFrames, sampleRate } = heap.value;
        const samples = new Float32Array(numberOfFrames);
        heap.value.copyTo(samples, { planeIndex: 0, format: 'f32-planar' });
        heap.value.close();
        ahead = Math.min(ahead, performance.now() - timestamp / 1000);
        const first = samples.findIndex((sample) => Math.abs(sample) > 0.2);
        const at = timestamp / 1000 + (first * 1000) / sampleRate;
        if (first >= 0 && at - (captured.at(-1) ?? -Infinity) > every / 2) captured.push(at);
        heard.splice(0, Infinity, ...captured.map((each) => each + ahead));
      }
    };
    devices.getUserMedia = async (constraints) => {
      const stream = await open(constraints);
      // Each one plays its file from the beginning.
      heard.length = 0;
      for (const track of stream.getAudioTracks()) void listen(track);
      return stream;
    };
    /** When the next clap comes, by those that were heard soonest. */
    const next = (after: number): number => {
      const [latest] = heard.slice(-1);
      // One alone may have been heard late.
      if (latest === undefined || heard.length < 3) return NaN;
      const begun = heard.slice(-8).map((at) => latest + ((((at - latest) % every) + 1.5 * every) % every) - every / 2);
      const soonest = Math.min(...begun);
      return soonest + Math.ceil((after - soonest) / every) * every;
    };
    Object.assign(window, { nextClap: next, heardClaps: heard });
  }, every);
}

/**
 * Draws an upright line with so many claps, `step` pixels apart from `left` on, with at least `rest` ms from one to the next. The
 * line tool is in hand.
 */
export function drawWithClaps(
  page: Page,
  place: { readonly left: number; readonly top: number; readonly height: number; readonly step: number },
  { count, rest }: { readonly count: number; readonly rest: number },
): Promise<readonly Clapped[]> {
  return page.evaluate(
    async ({ place, count, rest }) => {
      const { nextClap } = window as unknown as { nextClap: (after: number) => number };
      const canvas = document.querySelector<HTMLElement>('.upper-canvas');
      const send = (type: string, clientX: number, clientY: number, on: EventTarget = document): void => {
        const options = { bubbles: true, cancelable: true, pointerId: 1, isPrimary: true, pointerType: 'mouse' };
        on.dispatchEvent(
          new PointerEvent(type, { ...options, clientX, clientY, button: 0, buttons: type === 'pointerup' ? 0 : 1 }),
        );
      };
      const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, Math.max(0, ms)));
      const clapped: Clapped[] = [];
      while (clapped.length < count) {
        const clap = nextClap(performance.now() + 60 + (clapped.length === 0 ? 0 : rest));
        if (Number.isNaN(clap)) {
          await wait(50);
          continue;
        }
        await wait(clap - performance.now() - 12);
        while (performance.now() < clap);
        const at = performance.now();
        // A page that was busy just then has missed this clap; the next one comes.
        if (at - clap > 4 || canvas === null) continue;
        const left = place.left + clapped.length * place.step;
        send('pointerdown', left, place.top, canvas);
        send('pointermove', left, place.top + place.height);
        send('pointerup', left, place.top + place.height);
        // The ring round the pointer is no line.
        document.documentElement.dispatchEvent(new PointerEvent('pointerleave'));
        clapped.push({ at, late: at - clap, left });
      }
      return clapped;
    },
    { place, count, rest },
  );
}
