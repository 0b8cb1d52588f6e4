import { proposeClip } from '../../jobs/propose-clip.ts';
import { readVerifiedIndex } from '../../jobs/verified-index.ts';
import type { ProposedSwing } from '../../model/proposal.ts';
import { CHECKPOINT_LABELS, CHECKPOINTS } from '../../model/words.ts';
import { findFfmpeg } from '../../video/process/find-ffmpeg.ts';
import type { Command } from '../command.ts';
import { columns } from '../table.ts';

/** `baybook propose CLIP...`: which frames may be address, top and impact. */
export const proposeCommand: Command = {
  name: 'propose',
  summary: 'Look through clips for the swing and say which frames may be address, top and impact.',
  operands: { shown: 'CLIP...', least: 1, most: 1000 },
  options: { json: { type: 'boolean', help: 'print JSON, an object a clip' } },
  details: [
    'One swing a clip, from a camera that stands still. Impact is the last frame with the ball at rest; without a ball',
    'that is seen to go it is unsure. Address is the last frame before lasting motion. Nothing is written.',
    'With --json each object is {"clip", "proposed"} or {"clip", "why"}.',
  ],
  async run(args, { out, say, signal }) {
    const ffmpeg = await findFfmpeg();
    for (const clip of args.operands) {
      const index = await readVerifiedIndex(clip, { ffmpeg, signal });
      const found = await proposeClip({ path: clip, index }, ffmpeg, { signal, report: () => undefined });
      if (args.has('json')) {
        out(JSON.stringify(typeof found === 'string' ? { clip, why: found } : { clip, proposed: found }));
        continue;
      }
      if (args.operands.length > 1) out(`${clip}:`);
      if (typeof found === 'string') say(WHY[found]);
      else for (const line of columns(rowsOf(found))) out(line);
    }
  },
};

const WHY = {
  'nothing swings': 'No swing is seen in this clip.',
  'all moves': 'Too much moves in this clip to tell a swing; film from a stand.',
} as const;

function rowsOf(found: ProposedSwing): string[][] {
  const rows = CHECKPOINTS.flatMap((checkpoint) => {
    const proposed = checkpoint in found ? found[checkpoint as keyof ProposedSwing] : null;
    if (proposed === null) return [];
    return [[CHECKPOINT_LABELS[checkpoint], String(proposed.frame), proposed.sure ? 'sure' : 'unsure', proposed.by]];
  });
  return [['checkpoint', 'frame', 'how sure', 'by'], ...rows];
}
