import { createRequire } from 'node:module';
import type * as library from '@techstark/opencv-js';

/** What the library's own types say is in it; some of what they list is not in this build. */
export type VisionLibrary = typeof library;

/**
 * A general vision library of others (OpenCV 4.12, Apache-2.0), as a second opinion on our geometry. It comes in an
 * object, since the module has a `then` that never answers: whoever awaits the module itself waits for ever. Every Mat
 * that is made must be deleted by whoever made it.
 */
export async function visionLibrary(): Promise<{ readonly cv: VisionLibrary }> {
  const cv = createRequire(import.meta.url)('@techstark/opencv-js');
  // `Mat` appears when the compiled part is ready, which may have been before.
  if (cv.Mat === undefined)
    await new Promise<void>((ready) => {
      cv.onRuntimeInitialized = () => ready();
    });
  return { cv };
}
