import { describe, expect, it } from 'vitest';
import { spanOutputs } from '../../../../core/video/span/span-arguments.ts';

describe('a shortened clip is written', () => {
  it('in the container of the clip, with its sound; without it only where nothing else works', () => {
    expect(spanOutputs('mov', 'swing.mp4', true)).toEqual([
      { muxer: 'mp4', sound: true },
      { muxer: 'mov', sound: true },
      { muxer: 'mp4', sound: false },
      { muxer: 'mov', sound: false },
    ]);
    expect(spanOutputs('mov', 'SWING.MOV', false).map(({ muxer }) => muxer)).toEqual(['mov', 'mp4']);
    expect(spanOutputs('mpegts', 'swing.mov', false)).toEqual([{ muxer: 'mpegts', sound: false }]);
  });
});
