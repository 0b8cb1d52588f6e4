import { seeded } from '../../support/seeded.ts';
import { LENGTHS, ROWS } from '../bars.ts';
import { takeBenchClip } from '../bench-clip.ts';
import type { BenchRun } from '../bench-run.ts';
import { percentile, ratio } from '../statistics.ts';
import { followCopy } from './copy-progress.ts';
import { spreadFrames } from './plans.ts';
import { waitForQuiet } from './processes.ts';
import { closeSwing, importClip, openClip, openSession, openSwing } from './session.ts';
import { timeJumps } from './take-moving.ts';

const FILMS = ['1080p240-2s', '1080p240-5s', '1080p240', '1080p240-20s'] as const;
const VIEW = 'face-on';

/**
 * Random jumps in the same film of four lengths, once all copies are whole; turn and turn about, so that what else the
 * machine does meets all of them.
 */
export async function takeJumpsByLength(run: BenchRun): Promise<void> {
  const session = await openSession(FILMS);
  try {
    const clips = await Promise.all(FILMS.map((film) => takeBenchClip(run.store, film)));
    const films = clips.map((clip) => ({ clip, times: new Array<number>() }));
    for (const { clip } of films) {
      run.say(`lengths: making the copy of ${clip.truth.frames.length} frames ...`);
      await openSwing(session, clip.name);
      await importClip(session, clip, VIEW);
      await (await followCopy(session, clip)).whole();
      await closeSwing(session);
    }
    const [rounds, jumps] = run.quick ? [1, 6] : [2, 10];
    for (let round = 0; round < rounds; round += 1)
      for (const { clip, times } of films) {
        const { length } = clip.truth.frames;
        run.say(`lengths: random jumps in ${length} frames ...`);
        await openSwing(session, clip.name);
        await openClip(session, clip, VIEW);
        await waitForQuiet(session.pid);
        const answers = await timeJumps(session, spreadFrames(1, length - 1, jumps, seeded(length + round)));
        times.push(...answers.map(({ drawn }) => drawn ?? Infinity));
        await closeSwing(session);
      }
    const middles = films.map(({ times }) => percentile(times, 0.5) ?? Infinity);
    run.enter(ROWS.length.lengths.jump, LENGTHS, ratio(Math.max(...middles), Math.min(...middles)));
  } finally {
    await session.program.close();
  }
}
