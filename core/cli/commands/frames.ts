import { readVerifiedIndex } from '../../jobs/verified-index.ts';
import { describeClip } from '../../time/describe-clip.ts';
import { findFfmpeg } from '../../video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../video/index/read-clip-index.ts';
import type { Command } from '../command.ts';
import { columns } from '../table.ts';

/** `baybook frames CLIP`: every shown frame of a clip with its time. */
export const framesCommand: Command = {
  name: 'frames',
  summary: 'List the frames of a clip that are shown, in order, with their times.',
  operands: { shown: 'CLIP', least: 1, most: 1 },
  options: {
    json: { type: 'boolean', help: 'print JSON' },
    quick: { type: 'boolean', help: 'faster: skip the check by decoding' },
  },
  details: [
    'width and height are those of the upright picture with square pixels. turn is clockwise, in degrees, after mirrored',
    '(left to right). pts is in ticks of the time base, seconds = pts x timebase. captureRate is what the file says the',
    'camera took a second, or null. damage lists frames, from and to included, whose picture cannot be trusted.',
    'leftOut counts pictures of the file that are no frames: doubled (at the time of another one, which is the frame),',
    'hidden (by the edits of the file), timeless (without any time).',
  ],
  async run(args, { out, signal }) {
    const [path = ''] = args.operands;
    const ffmpeg = await findFfmpeg();
    const description = describeClip(
      await (args.has('quick') ? readClipIndex : readVerifiedIndex)(path, { ffmpeg, signal }),
    );
    if (args.has('json')) {
      out(JSON.stringify(description));
      return;
    }
    const { frames, ...facts } = description;
    for (const [name, value] of Object.entries(facts))
      out(`${name.padEnd(12)} ${typeof value === 'object' ? JSON.stringify(value) : String(value)}`);
    out('');
    for (const line of columns([
      ['frame', 'pts', 'seconds', 'key'],
      ...frames.map((f) => [String(f.index), String(f.pts), f.seconds.toFixed(6), f.key ? 'key' : '']),
    ]))
      out(line);
  },
};
