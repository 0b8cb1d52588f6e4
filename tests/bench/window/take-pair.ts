import { seeded } from '../../support/seeded.ts';
import { leaveBench } from '../../e2e/page-hands.ts';
import { PAIR, ROWS } from '../bars.ts';
import { takeBenchClip } from '../bench-clip.ts';
import type { BenchClip } from '../bench-clip.ts';
import type { BenchRun } from '../bench-run.ts';
import { ratio } from '../statistics.ts';
import { followCopy } from './copy-progress.ts';
import { jumpTo, spreadFrames, stepFrom } from './plans.ts';
import { readUsage } from './processes.ts';
import { closeSwing, importClip, openClip, openSession, openSwing } from './session.ts';
import type { Session } from './session.ts';
import { enterClosing, mostMemory, usageAtRest } from './take-memory.ts';

const MB = 1024 * 1024;
const SWING = 'Swing 1';

/** Two clips of 10 s in one swing: what the program takes at most while both are made ready and looked at, and after. */
export async function takePairFigures(run: BenchRun): Promise<void> {
  const clips = [
    await takeBenchClip(run.store, '1080p240'),
    await takeBenchClip(run.store, '1080p240-second'),
  ] as const;
  run.say('two clips: opening the window ...');
  const session = await openSession([SWING]);
  try {
    const before = await readUsage(session.pid);
    await openSwing(session, SWING);
    const most = await mostMemory(session, async () => {
      run.say('two clips: bringing them in, looking at both while their copies are made, and after ...');
      await importClip(session, clips[0], 'down-the-line');
      await lookAround(run, session, clips[0]);
      await leaveBench(session.page);
      await importClip(session, clips[1], 'face-on');
      await lookAround(run, session, clips[1]);
      for (const clip of clips) await (await followCopy(session, clip)).whole();
      await lookAround(run, session, clips[1]);
      await leaveBench(session.page);
      await openClip(session, clips[0], 'down-the-line');
      await lookAround(run, session, clips[0]);
    });
    await closeSwing(session);
    run.say('two clips: closed, looking at what stays ...');
    const after = await usageAtRest(session, before);
    await openSwing(session, SWING);
    await openClip(session, clips[1], 'face-on');
    await lookAround(run, session, clips[1]);
    await closeSwing(session);
    const again = await usageAtRest(session, after);
    const { pair } = ROWS.memory;
    run.enter(pair.most, PAIR, most === null ? null : most / MB);
    run.enter(pair.before, PAIR, before === null ? null : before.memory / MB);
    enterClosing(run, PAIR, before, after);
    run.enter(pair.again, PAIR, ratio(again?.memory ?? null, after?.memory ?? null));
  } finally {
    await session.program.close();
  }
}

/** Fills what is kept of pictures: jumps with steps behind them, and rests for sharp ones. */
async function lookAround(run: BenchRun, { page }: Session, clip: BenchClip): Promise<void> {
  const last = clip.truth.frames.length - 1;
  const orders = spreadFrames(10, last - 30, run.quick ? 2 : 3, seeded(1)).flatMap((frame) => [
    jumpTo(frame, { want: 'sharp' }),
    ...Array.from({ length: 20 }, (_, step) => stepFrom(frame + step, 1, 20)),
  ]);
  await page.evaluate((all) => window.bench.carryOut(all), orders);
}
