import { seeded } from '../../support/seeded.ts';
import { ROWS } from '../bars.ts';
import type { ClipName } from '../bars.ts';
import type { BenchClip } from '../bench-clip.ts';
import type { BenchRun } from '../bench-run.ts';
import type { Answer, Order } from '../in-page/contract.ts';
import { percentile } from '../statistics.ts';
import { jumpTo, spreadFrames } from './plans.ts';
import type { Session } from './session.ts';
import { enterJudged, judgePicks } from './take-unready.ts';
import type { Judged } from './take-unready.ts';

const SEED = 71;
/** How far the hand goes and comes back, frames. */
const AWAY = 3;

/** The sharp picture once the hand rests, and once more after a look at a frame nearby. */
export async function takeSharp(run: BenchRun, session: Session, name: ClipName, clip: BenchClip): Promise<void> {
  run.say(`${name}: sharp pictures, and plain decodes to the same frames ...`);
  const last = clip.truth.frames.length - 1 - AWAY;
  const judged: Judged[] = [];
  const returns: Answer[] = [];
  for (const frame of spreadFrames(0, last, run.quick ? 3 : 8, seeded(SEED))) {
    const orders: Order[] = [
      jumpTo(frame, { want: 'sharp', pause: 400 }),
      jumpTo(frame + AWAY, { want: 'sharp' }),
      jumpTo(frame, { want: 'sharp' }),
    ];
    const [came, , back] = await session.page.evaluate((all) => window.bench.carryOut(all), orders);
    // Its plain decode at once, so that both meet the same machine.
    if (came !== undefined) judged.push(...(await judgePicks(session, clip, [came])));
    if (back !== undefined) returns.push(back);
  }
  enterJudged(run, ROWS.sharp.each, name, judged);
  const back = returns.map(({ drawn }) => drawn ?? Infinity);
  run.enter(ROWS.sharp.each.back, name, percentile(back, 0.95));
}
