import type { CodedStart } from '../../core/time/first-picture.ts';

/**
 * A thread of its own for one picture: Chromium keeps megabytes of a frame that was drawn small, some of them until the
 * thread ends that drew it.
 */

/** The answer: null where there is no such picture. */
export interface Sighted {
  readonly picture: ImageBitmap | null;
}

/** Lines; it is shown on a few more than a hundred. */
const LINES = 360;

self.addEventListener('message', ({ data: start }: MessageEvent<CodedStart>) => {
  decode(start).then(
    (picture) => self.postMessage({ picture } satisfies Sighted, { transfer: picture === null ? [] : [picture] }),
    () => self.postMessage({ picture: null } satisfies Sighted),
  );
});

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
  const { width: wide, height: high } = frame.visibleRect ?? { width: frame.codedWidth, height: frame.codedHeight };
  // By way of its pixels: of a frame that is drawn itself Chromium keeps a copy at full size, also after the thread's end.
  const image = new ImageData(wide, high);
  await frame.copyTo(image.data, RGBA);
  return createImageBitmap(image, {
    ...{ resizeWidth: width, resizeHeight: height },
    ...{ resizeQuality: 'medium', colorSpaceConversion: 'none' },
  });
}

/** The library's types do not know yet that a frame can be converted (WebCodecs, VideoFrameCopyToOptions.format). */
const RGBA: VideoFrameCopyToOptions & { readonly format: 'RGBA' } = { format: 'RGBA' };

function close(frame: VideoFrame | null): void {
  frame?.close();
}
