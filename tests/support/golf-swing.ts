import type { BodyPointId } from '../../core/model/body-points.ts';
import type { PlacedPoint } from '../../core/model/mark.ts';
import type { SwingFile } from '../../core/model/swing-file.ts';
import { EMPTY_PAGE } from '../../core/model/lesson-page.ts';
import { SWING_FILE_VERSION } from '../../core/model/swing-file.ts';
import type { Checkpoint } from '../../core/model/words.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';

type Places = Readonly<Partial<Record<BodyPointId, readonly [x: number, y: number]>>>;

/** Frames of golf/down-the-line-slow.mp4 as its labels say, with body points placed by eye on the full-size pictures. */
export const GOLF_FRAMES: Readonly<Partial<Record<Checkpoint, { readonly index: number; readonly points: Places }>>> = {
  address: {
    index: 60,
    points: {
      'head-centre': [212, 167],
      'neck-base': [187, 183],
      tailbone: [101, 282],
      'lead-shoulder': [194, 203],
      'trail-shoulder': [183, 206],
      'trail-hip': [135, 289],
      'trail-knee': [161, 357],
      'trail-ankle': [149, 447],
      'grip-end': [183, 316],
      clubhead: [336, 457],
      ball: [322, 440],
    },
  },
  top: {
    index: 118,
    points: {
      'head-centre': [224, 178],
      'neck-base': [195, 185],
      tailbone: [113, 284],
      'lead-shoulder': [217, 217],
      'trail-shoulder': [145, 194],
      'trail-hip': [134, 291],
      'trail-knee': [167, 361],
      'trail-ankle': [152, 447],
    },
  },
  impact: {
    index: 143,
    points: {
      'head-centre': [217, 178],
      'neck-base': [195, 181],
      tailbone: [116, 269],
      'trail-hip': [145, 280],
      'trail-knee': [172, 357],
      'trail-ankle': [163, 443],
      'grip-end': [211, 298],
      clubhead: [331, 457],
    },
  },
};

/** The swing file of that clip. */
export function golfSwingFile(file: string, sha256: string, index: ClipIndex): SwingFile {
  const named = Object.entries(GOLF_FRAMES).map(([checkpoint, { index: at, points }]) => {
    const frame = index.frames[at];
    if (frame === undefined) throw new Error(`the golf clip has no frame ${at}`);
    return { checkpoint, at, frame, points };
  });
  return {
    format: 'baybook-swing',
    version: SWING_FILE_VERSION,
    pins: [],
    page: EMPTY_PAGE,
    student: { firstName: 'Ines' },
    lesson: { date: '2026-06-02', club: 'Driver', handedness: 'right' },
    clips: [
      {
        view: 'down-the-line',
        file,
        sha256,
        width: index.width,
        height: index.height,
        timebase: index.timebase,
        nominalRate: index.nominalRate,
        captureRate: index.captureRate,
        checkpoints: Object.fromEntries(
          named.map(({ checkpoint, at, frame }) => [checkpoint, { index: at, pts: frame.pts, ticks: frame.ticks }]),
        ),
        marks: named.map(({ at, frame, points }) => ({
          frame: { index: at, pts: frame.pts },
          points: Object.fromEntries(
            Object.entries(points).map(([id, [x, y]]): [string, PlacedPoint] => [id, { x, y, hidden: false }]),
          ),
          shapes: [],
        })),
      },
    ],
  };
}
