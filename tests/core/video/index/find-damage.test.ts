import { describe, expect, it } from 'vitest';
import { DamageReader } from '../../../../core/video/index/find-damage.ts';

describe('the reader of a whole report', () => {
  const packet = (pts: number | null, key = false, fields = {}) =>
    ({ pts, duration: 10, size: 1, key, discard: false, corrupt: false, secondField: false, ...fields }) as const;
  const readLine = '[info] demuxer+ffmpeg -> ist_index:0 type:video pkt_pts:1 pkt_pts_time:1';
  const error = '[h264 @ 0x1] [error] error while decoding MB 0 3, bytestream 2353';
  const decoded = (pts: number, key = false) =>
    `[info] decoder -> ist_index:0 type:video frame_pts:${pts} frame_pts_time:0 best_effort_ts:${pts} ` +
    `best_effort_ts_time:0 keyframe:${key ? 1 : 0} frame_type:${key ? 1 : 2} time_base:1/15360`;
  const newer = (pts: number, key = false) =>
    `[vist#0:0/h264 @ 0x1] [dec:h264 @ 0x2] [info] decoder -> pts:${pts} pts_time:0 pkt_dts:${pts} pkt_dts_time:0 ` +
    `duration:512 duration_time:0 keyframe:${key ? 1 : 0} frame_type:${key ? 1 : 2} time_base:1/15360`;
  const three = [packet(0, true), packet(10), packet(20, true)];

  function damageOf(lines: readonly string[], packets: Parameters<DamageReader['damage']>[0], readAhead = 0) {
    const reader = new DamageReader({ codec: 'h264' }, readAhead);
    for (const line of lines) reader.read(line);
    return reader.damage(packets);
  }

  it('finds none in a sound decode, whichever release wrote it', () => {
    for (const show of [decoded, newer]) {
      const lines = [readLine, show(0, true), readLine, show(10), readLine, show(20, true)];
      expect(damageOf(lines, three)).toEqual([]);
    }
  });

  it('lays a complaint to the packet read before it, and none that comes before the first', () => {
    const lines = [error, readLine, decoded(0, true), readLine, error, decoded(10), readLine, decoded(20, true)];
    expect(damageOf(lines, three)).toEqual([{ first: 10, last: 19 }]);
  });

  it('of a release that reads ahead, to any that it may be about and that was not delivered yet', () => {
    const lines = [readLine, readLine, readLine, newer(0, true), error, newer(10), newer(20, true)];
    expect(damageOf(lines, three, 16)).toEqual([{ first: 1, last: Infinity }]);
  });

  it('doubts what was lost and what the file marks as broken', () => {
    const all = [readLine, decoded(0, true), readLine, decoded(10), readLine, decoded(20, true)];
    expect(damageOf(all.toSpliced(3, 1), three)).toEqual([{ first: 10, last: 19 }]);
    expect(damageOf(all, [packet(0, true), packet(10, false, { corrupt: true }), packet(20, true)])).toEqual([
      { first: 10, last: 19 },
    ]);
  });

  it('takes a marked picture alone for no damage: sound fields are marked too', () => {
    const marked = '[warning] a.mp4: corrupt decoded frame in stream 0';
    const all = [readLine, decoded(0, true), readLine, marked, decoded(10), readLine, marked, decoded(20, true)];
    expect(damageOf(all, three)).toEqual([]);
    expect(damageOf(all.toSpliced(3, 0, error), three)).toEqual([{ first: 10, last: 19 }]);
  });

  it('misses no picture of a second field, and lays a complaint about one to its picture', () => {
    const fields = [
      packet(0, true),
      packet(5, false, { secondField: true }),
      packet(10),
      packet(15, false, { secondField: true }),
    ];
    const sound = [readLine, readLine, decoded(0, true), readLine, readLine, decoded(10)];
    expect(damageOf(sound, fields)).toEqual([]);
    expect(damageOf(sound.toSpliced(5, 0, error), fields)).toEqual([{ first: 10, last: Infinity }]);
  });

  it('does not miss what an edit hides', () => {
    const lines = [readLine, readLine, decoded(10), readLine, decoded(20, true)];
    expect(damageOf(lines, [packet(0, true, { discard: true }), packet(10), packet(20, true)])).toEqual([]);
  });

  it('without times in the file, goes by what was delivered, and doubts more', () => {
    const lines = [readLine, decoded(0, true), readLine, error, decoded(10), readLine, decoded(20, true)];
    expect(damageOf(lines, [packet(null, true), packet(null), packet(null, true)])).toEqual([
      { first: 10, last: Infinity },
    ]);
  });
});
