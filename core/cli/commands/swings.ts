import { swingsOfClip } from '../../jobs/swings-of-clip.ts';
import { readVerifiedIndex } from '../../jobs/verified-index.ts';
import { ticksToSeconds } from '../../time/rational.ts';
import { findFfmpeg } from '../../video/process/find-ffmpeg.ts';
import type { Command } from '../command.ts';
import { columns } from '../table.ts';

/** `baybook swings CLIP`: where a camera that was left running saw swings. */
export const swingsCommand: Command = {
  name: 'swings',
  summary: 'Look through a long clip for its swings, and say which part to keep of each.',
  operands: { shown: 'CLIP', least: 1, most: 1 },
  options: {
    all: { type: 'boolean', help: 'name bursts of motion too with which no strike was seen or heard' },
    json: { type: 'boolean', help: 'print JSON, one object' },
  },
  details: [
    'A swing is a burst of motion at which a ball goes from where balls lie, or a strike is heard. The frame is the last',
    'with the ball at rest, within a few; heard alone, the frame of most motion. Nothing is written.',
    'With --json: {"clip", "swings": [{"impact", "seen", "heard", "span": {"from", "to"}}]}, frames of the clip.',
  ],
  async run({ operands: [clip = ''], has }, { out, say, signal }) {
    const ffmpeg = await findFfmpeg();
    const index = await readVerifiedIndex(clip, { ffmpeg, signal });
    const found = await swingsOfClip({ path: clip, index }, ffmpeg, { signal, report: () => undefined });
    const swings = found.filter(({ seen, heard }) => has('all') || seen || heard);
    if (has('json')) return out(JSON.stringify({ clip, swings }));
    if (swings.length === 0) return say('No swing is seen in this clip.');
    const first = index.frames[0]?.pts ?? 0;
    const rows = swings.map(({ impact, seen, heard, span }) => [
      ticksToSeconds((index.frames[impact]?.pts ?? 0) - first, index.timebase).toFixed(2),
      ...[String(impact), `${String(span.from)}-${String(span.to)}`, seen ? 'seen' : '', heard ? 'heard' : ''],
    ]);
    for (const line of columns([['seconds', 'frame', 'to keep', 'ball', 'strike'], ...rows])) out(line);
  },
};
