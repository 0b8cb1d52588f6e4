import { describe, expect, it } from 'vitest';
import { PROXY_SIDES, proxySize, sideForScreen } from '../../../../core/video/proxy/proxy-size.ts';

describe('the size of pictures for moving through a clip', () => {
  it('suits the largest screen: two thirds of its longer side, up to the next size there is', () => {
    const screens = [1024, 1280, 1366, 1440, 1441, 1600, 1920, 2560, 5120, Infinity];
    expect(screens.map(sideForScreen)).toEqual([960, 960, 960, 960, 1280, 1280, 1280, 1280, 1280, 1280]);
  });

  it('keeps the proportions to a pixel, has even sides, and is never larger than the clip', () => {
    for (const longest of PROXY_SIDES)
      for (const [width, height] of [
        [1920, 1080],
        [1080, 1920],
        [3840, 2160],
        [720, 1280],
        [641, 361],
        [2, 4000],
      ] as const) {
        const size = proxySize({ width, height }, longest);
        expect(Math.max(size.width, size.height)).toBeLessThanOrEqual(Math.max(longest, 2));
        expect([size.width % 2, size.height % 2]).toEqual([0, 0]);
        const scale = Math.min(1, longest / Math.max(width, height));
        expect(Math.abs(size.width - Math.max(2, width * scale))).toBeLessThanOrEqual(1);
        expect(Math.abs(size.height - Math.max(2, height * scale))).toBeLessThanOrEqual(1);
      }
    expect(proxySize({ width: 1920, height: 1080 }, 960)).toEqual({ width: 960, height: 540 });
  });
});
