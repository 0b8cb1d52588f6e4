import type { CodedStart } from '../../core/time/first-picture.ts';
import type { Orientation } from '../../core/time/display-matrix.ts';
import { ask } from '../api.ts';

/** The first picture of a file, ready to be drawn as it is stored: small, and given back with the last who holds it. */
export interface FirstSight extends Orientation {
  readonly picture: ImageBitmap;
}

/** Lines; it is shown on a few more than a hundred. */
const LINES = 360;

/**
 * The first picture of a chosen file, before its frames are listed. The window's own decoder makes it where it can, which
 * needs no other program to start; else ffmpeg does. Null where there is none: the file says itself what is wrong.
 */
export async function readFirstSight(path: string): Promise<FirstSight | null> {
  try {
    const start = await ask('clip/coded-start', { path });
    const picture = start === null ? null : await decode(start).catch(() => null);
    if (start !== null && picture !== null) return { turn: start.turn, mirrored: start.mirrored, picture };
    const made = await ask('clip/first-picture', { path });
    if (made === null) return null;
    const { turn, mirrored, data } = made;
    return { turn, mirrored, picture: await createImageBitmap(new Blob([data])) };
  } catch {
    return null;
  }
}

/** @throws Error when the window has no decoder for it, or it gives up. */
async function decode({ codec, description, pictures, data, shown }: CodedStart): Promise<ImageBitmap | null> {
  let frame: VideoFrame | null = null;
  const decoder = new VideoDecoder({
    output: (made) => {
      if (made.timestamp === shown && frame === null) frame = made;
      else made.close();
    },
    // `flush` rejects with it as well.
    error: () => undefined,
  });
  try {
    decoder.configure({ codec, description });
    let at = 0;
    for (const { key, time, bytes } of pictures) {
      const own = data.subarray(at, at + bytes);
      decoder.decode(new EncodedVideoChunk({ type: key ? 'key' : 'delta', timestamp: time, data: own }));
      at += bytes;
    }
    await decoder.flush();
    return await smallPicture(frame);
  } finally {
    if (decoder.state !== 'closed') decoder.close();
    close(frame);
  }
}

async function smallPicture(frame: VideoFrame | null): Promise<ImageBitmap | null> {
  if (frame === null) return null;
  const height = Math.min(LINES, frame.displayHeight);
  const width = Math.max(1, Math.round((height * frame.displayWidth) / frame.displayHeight));
  const context = new OffscreenCanvas(width, height).getContext('2d', { alpha: false });
  // Half the time of `createImageBitmap` with a size, where there is no GPU.
  context?.drawImage(frame, 0, 0, width, height);
  return context?.canvas.transferToImageBitmap() ?? null;
}

function close(frame: VideoFrame | null): void {
  frame?.close();
}
