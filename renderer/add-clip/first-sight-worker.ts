import type { CodedStart } from '../../core/time/first-picture.ts';

/**
 * A thread of its own for one picture: Chromium keeps megabytes of a frame that was drawn small, some of them until the
 * thread ends that drew it.
 */

/** The answer: null where there is no such picture. */
export interface Sighted {
  readonly picture: ImageBitmap | null;
}

/** Lines at least, where the clip has as many; it is shown on a few more than a hundred. */
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
    // To ask for a chip that decodes takes longer than to decode one picture without.
    decoder.configure({ codec, description, hardwareAcceleration: 'prefer-software' });
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

/**
 * Every sample of it is the mean of some that lie side by side. Null where they are not laid out as by the decoder of H.264 of
 * 8 bits. By way of R, G and B it takes twice as long. Of a frame that is drawn itself Chromium keeps a copy at full size.
 */
async function smallPicture(frame: VideoFrame | null): Promise<ImageBitmap | null> {
  if (frame?.format !== 'I420') return null;
  const { displayWidth, displayHeight, visibleRect, colorSpace } = frame;
  const width = visibleRect?.width ?? frame.codedWidth;
  const height = visibleRect?.height ?? frame.codedHeight;
  const side = Math.max(1, Math.floor(height / LINES));
  const samples = new Uint8Array(frame.allocationSize());
  const planes = await frame.copyTo(samples);
  const of = (plane: number): Plane => ({
    samples,
    stride: planes[plane]?.stride ?? 0,
    at: planes[plane]?.offset ?? 0,
  });
  // Colours have half as many samples each way as brightness has.
  const [wide, high] = [Math.floor(width / 2 / side), Math.floor(height / 2 / side)];
  if (wide === 0 || high === 0) return null;
  const small = new Uint8Array(6 * wide * high);
  shrink(of(0), side, small.subarray(0, 4 * wide * high), 2 * wide);
  shrink(of(1), side, small.subarray(4 * wide * high, 5 * wide * high), wide);
  shrink(of(2), side, small.subarray(5 * wide * high), wide);
  const made = new VideoFrame(small, {
    ...{ format: 'I420', timestamp: 0, codedWidth: 2 * wide, codedHeight: 2 * high, colorSpace: colorSpace.toJSON() },
    ...{ displayWidth: Math.max(1, Math.round((2 * high * displayWidth) / displayHeight)), displayHeight: 2 * high },
  });
  try {
    return await createImageBitmap(made);
  } finally {
    made.close();
  }
}

/** Bytes of one sample each, `stride` from row to row. */
interface Plane {
  readonly samples: Uint8Array;
  readonly stride: number;
  /** Of the first one. */
  readonly at: number;
}

/** Fills `small`, `width` samples a row, with the means of squares of `side` samples. */
function shrink({ samples, stride, at }: Plane, side: number, small: Uint8Array, width: number): void {
  for (let place = 0; place < small.length; place += 1) {
    const from = at + Math.floor(place / width) * side * stride + (place % width) * side;
    let sum = 0;
    for (let row = 0; row < side; row += 1)
      for (let x = from + row * stride, end = x + side; x < end; x += 1) sum += samples[x] ?? 0;
    small[place] = sum / (side * side);
  }
}

function close(frame: VideoFrame | null): void {
  frame?.close();
}
