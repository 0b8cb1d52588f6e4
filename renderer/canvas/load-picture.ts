import { AppError } from '../../core/model/errors.ts';

/**
 * Fetches and decodes a frame off screen, so that it can be shown without a gap. Throws the program's own sentence when
 * the answer is no picture.
 */
export async function loadPicture(url: string, signal: AbortSignal): Promise<ImageBitmap> {
  const answer = await fetch(url, { signal });
  if (!answer.ok) {
    const sentence = await answer.text();
    throw new AppError(answer.status === 404 ? 'no-such-frame' : 'internal', sentence);
  }
  // Colours are taken as they stand: both qualities come from the same conversion, and a profile must not shift one.
  return createImageBitmap(await answer.blob(), { colorSpaceConversion: 'none' });
}
