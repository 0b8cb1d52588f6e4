import { describe, expect, it } from 'vitest';
import { parseFrameUrl } from '../../electron/frame-url.ts';

const CLIP = '0b9f7c52-3a54-4a0e-9a55-6f6f2f7f1d10';

describe('the address of a frame', () => {
  it('names a clip and an index', () => {
    expect(parseFrameUrl(`clip://frame/${CLIP}/0`)).toEqual({ clipId: CLIP, index: 0 });
    expect(parseFrameUrl(`clip://frame/${CLIP}/1199`)).toEqual({ clipId: CLIP, index: 1199 });
  });

  it.each([
    `clip://frame/${CLIP}/-1`,
    `clip://frame/${CLIP}/1.5`,
    `clip://frame/${CLIP}/007`,
    `clip://frame/${CLIP}/1e3`,
    `clip://frame/${CLIP}/1/2`,
    `clip://frame/${CLIP}/`,
    `clip://frame/${CLIP}`,
    `clip://frame/${CLIP}/1?quick`,
    `clip://frame/${CLIP}/1?`,
    `clip://frame/${CLIP}/1#quick`,
    `clip://frame/${CLIP}/9999999999`,
    `clip://frame/${CLIP.toUpperCase()}/1`,
    `clip://other/${CLIP}/1`,
    `file://frame/${CLIP}/1`,
    'clip://frame/..%2f..%2fetc%2fpasswd/1',
    `clip://user@frame/${CLIP}/1`,
    ` clip://frame/${CLIP}/1`,
    '',
  ])('refuses %s', (url) => {
    expect(parseFrameUrl(url)).toBeNull();
  });
});
