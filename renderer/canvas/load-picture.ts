import { AppError, ERROR_CODES } from '../../core/model/errors.ts';

/**
 * Fetches and decodes a frame off screen, so that it can be shown without a gap. Throws the program's own sentence when
 * the answer is no picture. `width`: makes it so many pixels wide, else it keeps its size.
 */
export async function loadPicture(url: string, signal: AbortSignal, width?: number): Promise<ImageBitmap> {
  const answer = await fetch(url, { signal });
  if (!answer.ok) {
    const told = answer.headers.get('x-baybook-code');
    throw new AppError(ERROR_CODES.find((code) => code === told) ?? 'internal', await answer.text());
  }
  // Colours are taken as they stand: both qualities come from the same conversion, and a profile must not shift one.
  const resized = width === undefined ? {} : ({ resizeWidth: Math.round(width), resizeQuality: 'high' } as const);
  return createImageBitmap(await answer.blob(), { colorSpaceConversion: 'none', ...resized });
}
