import { seeded } from '../../support/seeded.ts';
import { LENGTHS, ROWS } from '../bars.ts';
import { takeBenchClip } from '../bench-clip.ts';
import type { BenchRun } from '../bench-run.ts';
import { percentile, ratio } from '../statistics.ts';
import { followCopy } from './copy-progress.ts';
import { spreadFrames } from './plans.ts';
import { waitForQuiet } from './processes.ts';
import { closeSwing, importClip, openSession, openSwing } from './session.ts';
import { timeJumps } from './take-moving.ts';

const FILMS = ['1080p240-2s', '1080p240-5s', '1080p240', '1080p240-20s'] as const;

/** Random jumps in the same film of four lengths, each once its copy is whole. */
export async function takeJumpsByLength(run: BenchRun): Promise<void> {
  const session = await openSession(FILMS);
  try {
    const middles: number[] = [];
    for (const film of FILMS) {
      const clip = await takeBenchClip(run.store, film);
      const { length } = clip.truth.frames;
      run.say(`lengths: random jumps in ${length} frames ...`);
      await openSwing(session, film);
      await importClip(session, clip, 'face-on');
      await (await followCopy(session, clip)).whole();
      await waitForQuiet(session.pid);
      const answers = await timeJumps(session, spreadFrames(0, length - 1, run.quick ? 6 : 15, seeded(length)));
      middles.push(
        percentile(
          answers.map(({ drawn }) => drawn ?? Infinity),
          0.5,
        ) ?? Infinity,
      );
      await closeSwing(session);
    }
    run.enter(ROWS.length.lengths.jump, LENGTHS, ratio(Math.max(...middles), Math.min(...middles)));
  } finally {
    await session.program.close();
  }
}
