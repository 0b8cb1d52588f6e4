import { describe, expect, it } from 'vitest';
import { parseFramecrc, parsePacketLine } from '../../../core/video/index/parse-framecrc.ts';
import { captureRatio, HeaderLines, parseHeader } from '../../../core/video/index/parse-header.ts';

describe('a packet line', () => {
  it('gives time, size and flags', () => {
    expect(parsePacketLine('0,       -321,       -280,       20,    78829, 0x3f0063eb, F=0x5, S=1,        8')).toEqual({
      pts: -280,
      duration: 20,
      size: 78829,
      key: true,
      discard: true,
      corrupt: false,
      secondField: false,
    });
  });

  it('is a key picture when no flags are printed', () => {
    expect(parsePacketLine('0, 0, 0, 1, 38016, 0xb3883478')?.key).toBe(true);
    expect(parsePacketLine('0, 0, 0, 1, 38016, 0xb3883478, F=0x2')).toMatchObject({ key: false, corrupt: true });
  });

  it('may lack a time', () => {
    expect(parsePacketLine('0, 3, NOPTS, 1, 99, 0x1, F=0x0')?.pts).toBeNull();
    expect(parsePacketLine('0, 3, -9223372036854775808, 1, 99, 0x1, F=0x0')?.pts).toBeNull();
  });

  it('is nothing else', () => {
    for (const line of ['', '#tb 0: 1/600', 'Conversion failed!', '0, 1, 2', 'a, 1, 2, 3, 4, 5'])
      expect(parsePacketLine(line)).toBeNull();
  });
});

it('reads time base, size and pixel shape before the packets', () => {
  const text = '#software: x\n#tb 0: 1/600\n#dimensions 0: 640x360\n#sar 0: 2/1\n0, 0, 0, 20, 7, 0x1\n';
  expect(parseFramecrc(text)).toMatchObject({
    timebase: { num: 1, den: 600 },
    width: 640,
    height: 360,
    pixelAspect: { num: 2, den: 1 },
    packets: [{ pts: 0, size: 7 }],
  });
  expect(parseFramecrc('#sar 0: 0/1\n').pixelAspect).toBeNull();
});

const PHONE = `Input #0, mov,mp4,m4a,3gp,3g2,mj2, from 'clip.mp4':
  Metadata:
    com.android.capture.fps: 240.000000
  Duration: 00:00:02.55, start: 0.000000, bitrate: 10289 kb/s
  Stream #0:0[0x2](eng): Audio: aac (LC) (mp4a / 0x6134706D), 44100 Hz, stereo, fltp, 140 kb/s (default)
  Stream #0:1[0x1](und): Video: hevc (Main 10) (hvc1 / 0x31637668), yuv420p10le(tv, bt2020nc/bt2020/arib-std-b67), 1920x1080, 29.97 tbr, 600 tbn (default)
    Side data:
      displaymatrix: rotation of -90.00 degrees
  Stream #0:2[0x3](und): Data: none (mebx / 0x7862656D), 0 kb/s (default)
Output #0, framecrc, to 'pipe:':
  Stream #0:0(und): Video: hevc (Main 10), yuv420p10le(tv), 1920x1080
Stream mapping:
  Stream #0:1 -> #0:0 (copy)
`;

describe('the report on a file', () => {
  it('tells the chosen stream, its colours and turn, sound and capture rate', () => {
    expect(parseHeader(PHONE)).toEqual({
      stream: 1,
      trackId: 1,
      codec: 'hevc',
      pixelFormat: 'yuv420p10le',
      progressive: false,
      colour: { range: 'tv', matrix: 'bt2020nc', primaries: 'bt2020', transfer: 'arib-std-b67' },
      cover: false,
      turn: 90,
      sound: true,
      captureRate: { num: 240, den: 1 },
    });
  });

  it('needs no track ids', () => {
    const text = PHONE.replaceAll(/\[0x\d\]\(\w+\)/g, '');
    expect(parseHeader(text)).toMatchObject({ stream: 1, trackId: null, codec: 'hevc', sound: true });
  });

  it('leaves unknown colours open', () => {
    const colourOf = (words: string): unknown => parseHeader(PHONE.replace(/yuv420p10le\([^)]*\)/, words))?.colour;
    const none = { range: null, matrix: null, primaries: null, transfer: null };
    expect(colourOf('yuv420p')).toEqual(none);
    expect(colourOf('yuv420p(progressive)')).toEqual(none);
    expect(colourOf('yuv420p(tv, top first)')).toEqual({ ...none, range: 'tv' });
    expect(colourOf('yuvj420p(pc, bt470bg/unknown/unknown)')).toEqual({ ...none, range: 'pc', matrix: 'bt470bg' });
    expect(colourOf('yuv420p(bt709)')).toEqual({ range: null, matrix: 'bt709', primaries: 'bt709', transfer: 'bt709' });
  });

  it('infers nothing about the camera from a wish for playback', () => {
    const text = PHONE.replace(
      'com.android.capture.fps: 240.000000',
      'com.apple.quicktime.full-frame-rate-playback-intent: 1',
    );
    expect(parseHeader(text)?.captureRate).toBeNull();
  });

  it('is null when no picture stream was chosen', () => {
    expect(parseHeader('moov atom not found')).toBeNull();
    expect(parseHeader(PHONE.replace('Stream #0:1 -> #0:0', 'nothing'))).toBeNull();
  });
});

it('reads a capture rate that was stored as a float', () => {
  expect([240, 119.88012, 29.97003, 59.5].map(captureRatio)).toEqual([
    { num: 240, den: 1 },
    { num: 120000, den: 1001 },
    { num: 30000, den: 1001 },
    { num: 119, den: 2 },
  ]);
  expect([0, -1, Number.NaN, Infinity].map(captureRatio)).toEqual([null, null, null, null]);
});

describe('what is kept of a report', () => {
  function kept(lines: Iterable<string>): string {
    const header = new HeaderLines();
    for (const line of lines) header.read(line);
    return header.text;
  }

  it('is as good as the whole, however much is complained of before it', () => {
    const complaints = Array.from({ length: 20_000 }, (_, at) => `[h264 @ 0x1] non-existing PPS ${at} referenced`);
    const text = kept([...complaints, ...PHONE.split('\n')]);
    expect(parseHeader(text)).toEqual(parseHeader(PHONE));
    expect(text.length).toBeLessThan(PHONE.length);
  });

  it('is bounded', () => {
    const streams = Array.from({ length: 20_000 }, (_, at) => `  Stream #0:${at}: Video: h264, yuv420p, 640x360`);
    expect(kept(streams).length).toBeLessThan(300 * 1024);
  });
});

it('calls a clip progressive only where ffmpeg does', () => {
  const video = (words: string): string =>
    `Input #0, mov, from 'a.mp4':\n  Stream #0:0: Video: h264 (High), yuv420p${words}, 640x360\n  Stream #0:0 -> #0:0 (copy)\n`;
  const progressive = (words: string): boolean | undefined => parseHeader(video(words))?.progressive;
  expect(progressive('(progressive)')).toBe(true);
  expect(progressive('(tv, bt709, progressive)')).toBe(true);
  for (const words of ['', '(tv, bt709)', '(top first)', '(tv, bt709, top coded first (swapped))'])
    expect(progressive(words)).toBe(false);
});
