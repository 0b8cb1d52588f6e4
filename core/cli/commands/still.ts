import { readVerifiedIndex } from '../../jobs/verified-index.ts';
import { AppError } from '../../model/errors.ts';
import { frameAtSeconds } from '../../time/frame-table.ts';
import { findFfmpeg } from '../../video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../video/index/read-clip-index.ts';
import { readStill } from '../../video/decode/read-still.ts';
import type { Command, ParsedArguments } from '../command.ts';
import { writePicture } from '../write-picture.ts';

interface Wanted {
  readonly index: number | null;
  readonly seconds: number | null;
}

function wantedFrame(args: ParsedArguments): Wanted {
  const index = args.text('index');
  const at = args.text('at');
  if ((index === undefined) === (at === undefined))
    throw new AppError('bad-arguments', 'Say which frame: either --index N (from 0) or --at SECONDS.');
  if (index !== undefined) {
    if (!/^\d{1,9}$/.test(index))
      throw new AppError('bad-arguments', `--index takes a whole number from 0, not "${index}".`);
    return { index: Number(index), seconds: null };
  }
  const seconds = Number(at);
  if (at === undefined || at.trim() === '' || !Number.isFinite(seconds))
    throw new AppError('bad-arguments', `--at takes seconds, for example 1.25, not "${at ?? ''}".`);
  return { index: null, seconds };
}

/** `baybook still CLIP`: one exact frame as a PNG. */
export const stillCommand: Command = {
  name: 'still',
  summary: 'Write one frame of a clip as a PNG: upright, square pixels, full size.',
  operands: { shown: 'CLIP', least: 1, most: 1 },
  options: {
    index: { type: 'string', value: 'N', help: 'the frame by number, the first is 0' },
    at: { type: 'string', value: 'SECONDS', help: 'the frame that is on screen at that time' },
    out: { type: 'string', value: 'F.png', help: 'where to write; an earlier PNG there is replaced and that is said' },
    quick: { type: 'boolean', help: 'faster: skip the check by decoding' },
    json: { type: 'boolean', help: 'print what was written as JSON' },
  },
  details: ['A frame is on screen from its own time until the time of the next.'],
  async run(args, { out, say, signal }) {
    const [path = ''] = args.operands;
    const target = args.text('out');
    if (target === undefined) throw new AppError('bad-arguments', 'Say where to write the picture: --out F.png.');
    const wanted = wantedFrame(args);
    const ffmpeg = await findFfmpeg();
    const index = await (args.has('quick') ? readClipIndex : readVerifiedIndex)(path, { ffmpeg, signal });
    const frame = wanted.seconds === null ? wanted.index : frameAtSeconds(index, wanted.seconds);
    const still = frame === null ? null : await readStill(path, index, frame, { ffmpeg, signal, as: 'png' });
    const shown = frame === null ? undefined : index.frames[frame];
    if (frame === null || still === null || shown === undefined)
      throw new AppError(
        'no-such-frame',
        wanted.seconds === null
          ? `The clip has ${index.frames.length} frames, numbered 0 to ${index.frames.length - 1}; there is no frame ${String(frame)}.`
          : `No frame of the clip is on screen at ${wanted.seconds} s. The command "frames" lists the times.`,
      );
    const replaced = await writePicture(target, still.data);
    if (replaced) say(`Replaced the earlier ${target}.`);
    const written = { out: target, index: frame, pts: shown.pts, width: still.width, height: still.height };
    out(args.has('json') ? JSON.stringify(written) : `${target}: frame ${frame}, ${still.width} x ${still.height}`);
  },
};
