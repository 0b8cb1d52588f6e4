import type { PictureLayout, PictureQuality } from '../../model/picture-layout.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import type { ClipSource } from '../index/clip-source.ts';
import { proxyLayout, proxySize } from '../proxy/proxy-size.ts';
import type { PictureSide } from '../proxy/proxy-size.ts';
import { assumedMatrix, samplesAsStored } from './picture-filter.ts';

/** How pictures of a clip travel: the same for all frames of one quality. `longest`: of proxy pictures. */
export function layoutOf(
  quality: PictureQuality,
  index: ClipIndex,
  source: ClipSource,
  longest: PictureSide,
): PictureLayout {
  if (quality === 'proxy') return proxyLayout(proxySize(index, longest));
  const { colour, pixelFormat } = source;
  const named = colour.matrix === 'bt709' ? 'bt709' : 'bt601';
  return {
    kind: samplesAsStored(index, source) ? 'i420' : 'rgba',
    ...{ width: index.width, height: index.height },
    matrix: colour.matrix === null ? assumedMatrix(index) : named,
    fullRange: colour.range === 'pc' || pixelFormat === 'yuvj420p',
  };
}
