import type { PictureLayout } from '../../core/model/picture-layout.ts';
import { samplesToRgba } from './samples-to-rgba.ts';

/** The page's second thread: makes pictures of samples, which at full size would hold the hand up for 10 to 50 ms each. */

export interface ToConvert {
  readonly id: number;
  readonly layout: PictureLayout;
  readonly data: Uint8Array;
}

/** The answer holds either. */
export interface Converted {
  readonly id: number;
  readonly picture?: ImageBitmap;
  readonly error?: string;
}

self.addEventListener('message', (event: MessageEvent<ToConvert>) => {
  const { id, layout, data } = event.data;
  const { width, height } = layout;
  const made = (async () => {
    const image = new ImageData(samplesToRgba(layout, data), width, height);
    return createImageBitmap(image, { colorSpaceConversion: 'none' });
  })();
  made.then(
    (picture) => self.postMessage({ id, picture } satisfies Converted, { transfer: [picture] }),
    (cause: unknown) => self.postMessage({ id, error: String(cause) } satisfies Converted),
  );
});
