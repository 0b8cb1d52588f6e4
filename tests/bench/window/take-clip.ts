import { LARGE, ROWS } from '../bars.ts';
import type { ClipName } from '../bars.ts';
import type { BenchClip } from '../bench-clip.ts';
import type { BenchRun } from '../bench-run.ts';
import type { Answer } from '../in-page/contract.ts';
import { followCopy } from './copy-progress.ts';
import { readUsage } from './processes.ts';
import { closeSwing, importClip, openSession, openSwing, startAnew } from './session.ts';
import type { FirstPictures, Session } from './session.ts';
import { takeCells } from './take-cells.ts';
import { takeDrag } from './take-drag.ts';
import { takeHeldKey, takeJumps, takeSteps } from './take-moving.ts';
import { enterClosing, usageAtRest } from './take-memory.ts';
import { takeSharp } from './take-sharp.ts';
import { enterJudged, judgePicks, pickUnready } from './take-unready.ts';
import { takeWrongFrames } from './take-wrong.ts';

const VIEW = 'face-on';

/** Everything that is seen of one clip in the window, from the empty book to the closed swing. */
export async function takeClipFigures(run: BenchRun, name: ClipName, clip: BenchClip): Promise<void> {
  const parts = ['first', 'step', 'held', 'jump', 'unready', 'cell', 'sharp', 'wrong', 'drag', 'memory'] as const;
  if (!parts.some((part) => run.wants(part))) return;
  run.say(`${name}: opening the window ...`);
  const repeats = run.wants('first') ? (run.quick ? 1 : 2) : 1;
  const swings = Array.from({ length: repeats }, (_, place) => `Swing ${place + 1}`);
  const session = await openSession(swings);
  try {
    const before = await readUsage(session.pid);
    await openSwing(session, 'Swing 1');
    run.say(`${name}: choosing the file ...`);
    const first = await importClip(session, clip, VIEW);
    const copy = await followCopy(session, clip);
    const unready: readonly Answer[] = run.wants('unready') ? await pickUnready(run, session, clip, copy) : [];
    run.say(`${name}: waiting for the proxy ...`);
    await copy.whole();
    if (run.wants('unready')) enterJudged(run, ROWS.unready.each, name, await judgePicks(session, clip, unready));
    if (run.wants('cell')) await takeCells(run, session, name, clip);
    if (run.wants('step')) await takeSteps(run, session, name, clip);
    if (run.wants('held')) await takeHeldKey(run, session, name, clip);
    if (run.wants('jump')) await takeJumps(run, session, name, clip);
    if (run.wants('sharp')) await takeSharp(run, session, name, clip);
    if (run.wants('wrong')) await takeWrongFrames(run, session, name, clip);
    if (run.wants('drag') && name === LARGE) await takeDrag(run, session, name, clip);
    await closeSwing(session);
    if (run.wants('memory')) {
      run.say(`${name}: closed, looking at what stays ...`);
      enterClosing(run, name, before, await usageAtRest(session, before));
    }
    if (run.wants('first')) await takeFirstAgain(run, session, name, clip, first);
  } catch (error) {
    run.say(`${name}: the program said: ${session.program.log().slice(-1500)}`);
    throw error;
  } finally {
    await session.program.close();
  }
}

/** The first pictures once more, in other swings of the same book. Of all of them the slowest is what is written down. */
async function takeFirstAgain(
  run: BenchRun,
  session: Session,
  name: ClipName,
  clip: BenchClip,
  first: FirstPictures,
): Promise<void> {
  const all = [first];
  for (const swing of session.swings.slice(1)) {
    run.say(`${name}: choosing the file again ...`);
    await startAnew(session);
    await openSwing(session, swing);
    all.push(await importClip(session, clip, VIEW));
    await closeSwing(session);
  }
  const { each } = ROWS.first;
  run.enter(each.picture, name, Math.max(...all.map(({ looked }) => looked ?? Infinity)));
  run.enter(each.bench, name, Math.max(...all.map(({ onBench }) => onBench ?? Infinity)));
}
