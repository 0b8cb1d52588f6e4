import { createRequire } from 'node:module';
import type * as Vision from '@techstark/opencv-js';

/** A general vision library (OpenCV 4.12 compiled to WebAssembly), to hold our own geometry against. */
export type VisionLibrary = typeof Vision;

let loaded: Promise<VisionLibrary> | null = null;

/**
 * The library, once it has started; the same one for everybody. What it makes (Mat and the like) lives outside of
 * JavaScript's memory: whoever makes one must `delete()` it, best with `freeing`.
 */
export function visionLibrary(): Promise<VisionLibrary> {
  loaded ??= load();
  return loaded;
}

function load(): Promise<VisionLibrary> {
  const library: VisionLibrary & { then?: unknown } = createRequire(import.meta.url)('@techstark/opencv-js');
  return new Promise((resolve) => {
    const ready = (): void => {
      // It calls itself a promise but hands over itself again, so that whoever awaits it waits for ever.
      delete library.then;
      resolve(library);
    };
    // Its types leave out that nothing is there yet when it has just been loaded.
    if ('Mat' in library) ready();
    else Object.assign(library, { onRuntimeInitialized: ready });
  });
}

/** What `work` gives; everything that it handed to `keep` is deleted afterwards, also when it throws. */
export function freeing<T>(work: (keep: <K extends { delete(): void }>(made: K) => K) => T): T {
  const kept: { delete(): void }[] = [];
  try {
    return work((made) => {
      kept.push(made);
      return made;
    });
  } finally {
    for (const made of kept.reverse()) made.delete();
  }
}
