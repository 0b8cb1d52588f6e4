import sharp from 'sharp';
import { expect, test } from 'vitest';
import { shrinkJpeg } from '../../../core/sheet/shrink-jpeg.ts';
import { noisyPictures } from '../lesson-page/sample-lesson.ts';

test('a JPEG gets as small as asked for, keeps its shape, and is still one; one that is small enough stays as it is', async () => {
  const [picture] = await noisyPictures(1, 400);
  if (picture === undefined) throw new Error('one picture was ordered');
  const most = Math.floor(picture.bytes.length * 0.45);
  const { bytes, width, height } = await shrinkJpeg(picture, most);
  expect(bytes.length).toBeLessThanOrEqual(most);
  const read = await sharp(bytes).metadata();
  expect([read.format, read.width, read.height]).toEqual(['jpeg', width, height]);
  // Rounded to whole pixels.
  expect(Math.abs(height / width - picture.height / picture.width)).toBeLessThan(0.01);
  expect(await shrinkJpeg(picture, picture.bytes.length)).toBe(picture);
});
