import { readFileSync, writeFileSync } from 'node:fs';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { ffmpegNow, makeCodedClip } from './coded-clip.ts';

/** A clip named by its illness. `make` writes it to `out`; `scratch` is a free name beside it. */
export interface IllClip {
  readonly name: string;
  readonly file: string;
  make(ffmpeg: Ffmpeg, out: string, scratch: string): void;
}

const H264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', '24'];
/** These encoders make as many slices of a picture as they have threads: the same file on every machine. */
const ONE_SLICE = ['-threads', '1'];
const clip = (name: string, file: string, args: readonly string[], count = 48, rate = '30'): IllClip => ({
  name,
  file,
  make(ffmpeg, out) {
    makeCodedClip(ffmpeg, count, rate, [...args, out]);
  },
});
/** A clip made from another one without encoding again. */
const remade = (
  name: string,
  file: string,
  first: readonly string[],
  inputArgs: readonly string[],
  outputArgs: readonly string[],
): IllClip => ({
  name,
  file,
  make(ffmpeg, out, scratch) {
    makeCodedClip(ffmpeg, 72, '30', [...first, scratch]);
    ffmpegNow(ffmpeg, [...inputArgs, '-i', scratch, '-c', 'copy', ...outputArgs, out]);
  },
});

/** Gaps from one tick to a third of a second, in ticks of 1/15360 s. */
const UNEVEN = "settb=1/15360,setpts='if(eq(N,30),PREV_OUTPTS+1,N*512+mod(N*N*37,7)*70+gt(N,20)*4000)'";
const OPEN_GOP = 'keyint=12:min-keyint=12:scenecut=0:bframes=3:b-adapt=0:open-gop=1';

export const ILL_CLIPS: readonly IllClip[] = [
  clip('constant rate, B-frames', 'constant.mp4', H264),
  clip('30000/1001', 'ntsc.mp4', H264, 60, '30000/1001'),
  clip('240 a second', '240.mp4', [...H264, '-g', '60'], 100, '240'),
  clip('no B-frames', 'no-b.mp4', [...H264, '-bf', '0']),
  clip('uneven times', 'uneven.mp4', [
    ...['-vf', UNEVEN, ...H264, '-fps_mode', 'passthrough', '-enc_time_base', '1:15360'],
    ...['-video_track_timescale', '15360'],
  ]),
  clip('uneven times in Matroska', 'uneven.mkv', [
    ...['-vf', "settb=1/1000,setpts='N*33+mod(N*N*37,7)*4+gt(N,20)*300'", ...H264],
    ...['-fps_mode', 'passthrough', '-enc_time_base', '1:1000'],
  ]),
  clip('pixels twice as wide as high', 'wide-pixels.mp4', ['-vf', 'setsar=2/1', ...H264]),
  clip('pixels higher than wide', 'high-pixels.mp4', ['-vf', 'setsar=8/9', ...H264]),
  clip('odd size', 'odd.mp4', ['-vf', 'scale=191:127', ...H264, '-pix_fmt', 'yuv444p']),
  clip('open groups, HEVC', 'open-hevc.mp4', ['-c:v', 'libx265', '-x265-params', `${OPEN_GOP}:log-level=error`]),
  clip('open groups, H.264', 'open-h264.mp4', ['-c:v', 'libx264', '-pix_fmt', 'yuv420p', '-x264-params', OPEN_GOP]),
  clip('open groups, H.264 in Matroska', 'open-h264.mkv', [
    ...['-c:v', 'libx264', '-pix_fmt', 'yuv420p', '-x264-params', OPEN_GOP],
  ]),
  clip('refreshed little by little, without key pictures', 'refresh.mp4', [
    ...['-c:v', 'libx264', '-pix_fmt', 'yuv420p', '-x264-params', 'intra-refresh=1:keyint=20:bframes=2'],
  ]),
  clip('10 bits, HEVC', 'ten-bit.mp4', [
    ...['-c:v', 'libx265', '-pix_fmt', 'yuv420p10le', '-x265-params', 'keyint=20:log-level=error'],
  ]),
  clip('interlaced', 'interlaced.mp4', [...H264, '-flags', '+ildct+ilme', '-x264-params', 'tff=1']),
  clip('VP9 with hidden frames', 'hidden.webm', [
    ...['-c:v', 'libvpx-vp9', '-deadline', 'realtime', '-cpu-used', '6', '-auto-alt-ref', '1', '-lag-in-frames', '16'],
    ...['-b:v', '400k', '-g', '24', '-pix_fmt', 'yuv420p'],
  ]),
  clip('VP8 with hidden pictures of their own', 'hidden-vp8.webm', [
    ...[
      '-c:v',
      'libvpx',
      '-auto-alt-ref',
      '1',
      '-lag-in-frames',
      '16',
      '-b:v',
      '400k',
      '-g',
      '24',
      '-deadline',
      'good',
    ],
    ...['-cpu-used', '4', '-pix_fmt', 'yuv420p'],
  ]),
  clip('AV1', 'av1.mp4', ['-c:v', 'libsvtav1', '-preset', '10', '-g', '24', '-pix_fmt', 'yuv420p']),
  clip('fragments', 'fragments.mp4', [...H264, '-movflags', 'frag_keyframe+empty_moov+default_base_moof']),
  clip('Matroska', 'plain.mkv', H264),
  clip('MPEG-TS', 'plain.ts', H264),
  clip('MPEG-TS, open groups', 'open.ts', ['-c:v', 'libx264', '-pix_fmt', 'yuv420p', '-x264-params', OPEN_GOP]),
  clip('MPEG-TS with time stamps before its packets', 'camera.m2ts', H264),
  clip('MPEG-TS, HEVC', 'hevc.ts', ['-c:v', 'libx265', '-x265-params', `${OPEN_GOP}:log-level=error`]),
  clip('AVI without times, B-frames', 'times.avi', [
    ...['-c:v', 'mpeg4', '-bf', '2', '-g', '12', '-qscale:v', '3'],
    ...ONE_SLICE,
  ]),
  clip('AVI of JPEGs', 'jpegs.avi', ['-c:v', 'mjpeg', '-pix_fmt', 'yuvj420p', '-qscale:v', '3'], 12),
  clip('MPEG-2 programme stream', 'plain.mpg', [
    ...['-c:v', 'mpeg2video', '-bf', '2', '-g', '12', '-qscale:v', '3'],
    ...ONE_SLICE,
  ]),
  clip('Flash video', 'plain.flv', H264),
  clip('Windows Media', 'plain.wmv', ['-c:v', 'wmv2', '-g', '12', '-qscale:v', '3']),
  clip('ProRes', 'prores.mov', ['-c:v', 'prores', '-pix_fmt', 'yuv422p10le'], 12),
  clip('sound that begins earlier', 'sound.mp4', [
    ...['-f', 'lavfi', '-i', 'sine=d=2', '-map', '1:a', '-map', '0:v', ...H264, '-c:a', 'aac'],
  ]),
  clip('one frame', 'one.mp4', H264, 1),
  clip('two frames', 'two.mp4', H264, 2),
  clip('times that begin late', 'late.mp4', [...H264, '-output_ts_offset', '1.5']),
  remade('Matroska without a table of key pictures', 'no-cues.mkv', H264, [], ['-live', '1']),
  remade('beginning cut off by an edit list', 'cut-start.mp4', H264, ['-ss', '1.1'], []),
  remade('both ends cut off by an edit list', 'cut-both.mp4', H264, ['-ss', '0.5'], ['-t', '1.2']),
  remade(
    'edit list into an open group',
    'cut-open.mp4',
    ['-c:v', 'libx264', '-pix_fmt', 'yuv420p', '-x264-params', OPEN_GOP],
    ['-ss', '0.7'],
    [],
  ),
  {
    name: 'cut short in its last third',
    file: 'cut-short.mp4',
    make(ffmpeg, out, scratch) {
      makeCodedClip(ffmpeg, 60, '30', [...H264, '-movflags', '+faststart', scratch]);
      const bytes = readFileSync(scratch);
      writeFileSync(out, bytes.subarray(0, Math.floor(bytes.length * 0.7)));
    },
  },
];
