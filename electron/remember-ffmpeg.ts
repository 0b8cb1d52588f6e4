import { findFfmpeg, type Ffmpeg } from '../core/video/process/find-ffmpeg.ts';

/** Finds ffmpeg at the first call and remembers it; one that was not found is looked for again: it may be installed. */
export function rememberFfmpeg(): () => Promise<Ffmpeg> {
  let found: Promise<Ffmpeg> | null = null;
  return () => {
    found ??= findFfmpeg().catch((cause: unknown) => {
      found = null;
      throw cause;
    });
    return found;
  };
}
