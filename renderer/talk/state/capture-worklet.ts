/** Runs on the sound's own thread: hands on every sample of the first channel, in heaps, each once. */

/** What the thread has; no library of types knows it. */
declare const registerProcessor: (name: string, processor: new () => AudioWorkletProcessor) => void;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}

/** Samples of a heap: 21 ms, so that a page that takes one at once knows well when it was recorded. */
const HEAP = 1024;

class Capture extends AudioWorkletProcessor {
  #heap = new Float32Array(HEAP);
  #filled = 0;

  process(inputs: readonly (readonly Float32Array[])[]): boolean {
    const channel = inputs[0]?.[0];
    // Without a source there is no sound, and nothing is made up for it.
    if (channel === undefined) return true;
    for (const sample of channel) {
      this.#heap[this.#filled] = sample;
      this.#filled += 1;
      if (this.#filled < HEAP) continue;
      const full = this.#heap;
      this.#heap = new Float32Array(HEAP);
      this.#filled = 0;
      this.port.postMessage(full, [full.buffer]);
    }
    return true;
  }
}

registerProcessor('capture', Capture);

export {};
