import { setTimeout as rest } from 'node:timers/promises';
import { DECODE_EXTRA_MS, DECODE_FACTOR } from '../bars.ts';
import type { ClipName } from '../bars.ts';
import type { BenchClip } from '../bench-clip.ts';
import type { BenchRun } from '../bench-run.ts';
import type { Answer } from '../in-page/contract.ts';
import { timeDecodeFromKey } from '../plain/plain-ffmpeg.ts';
import { percentile } from '../statistics.ts';
import type { CopyProgress } from './copy-progress.ts';
import { jumpTo } from './plans.ts';
import { waitForQuiet } from './processes.ts';
import type { Session } from './session.ts';

/** A time against the bar that its own frame has. */
export interface Judged {
  readonly ms: number;
  /** Of 1.3 x plain decode from the key frame + 150 ms. */
  readonly share: number;
}

const LEAST_PICKS = 3;

/** Jumps to frames that the proxy, which is being made, does not hold yet. */
export async function pickUnready(
  run: BenchRun,
  { page }: Session,
  clip: BenchClip,
  copy: CopyProgress,
): Promise<readonly Answer[]> {
  const { length } = clip.truth.frames;
  const most = run.quick ? 3 : 6;
  const answers: Answer[] = [];
  // From the middle to the end and over again: far from one another, so that the copy, which follows the hand, is elsewhere.
  for (let pick = 0; pick < most; pick += 1) {
    const target = Math.floor(length * (0.55 + 0.44 * ((pick * 0.618) % 1)));
    if (!(await copy.lacks(target))) continue;
    const [answer] = await page.evaluate((orders) => window.bench.carryOut(orders), [jumpTo(target)]);
    if (answer !== undefined && (await copy.lacks(target))) answers.push(answer);
    // A hand does not jump on at once; in between the copy goes on.
    await rest(300);
  }
  if (answers.length >= LEAST_PICKS) return answers;
  run.say(`${clip.name}: the copy was made before ${LEAST_PICKS} jumps could be timed`);
  return [];
}

/** Holds times against a plain decoder on the quiet machine. A picture that never came has no time. */
export async function judgePicks(
  { pid }: Pick<Session, 'pid'>,
  clip: BenchClip,
  answers: readonly Answer[],
): Promise<readonly Judged[]> {
  const judged: Judged[] = [];
  for (const { target, drawn } of answers) {
    await waitForQuiet(pid, 3000);
    const bar = DECODE_FACTOR * (await timeDecodeFromKey(clip, target)) + DECODE_EXTRA_MS;
    const ms = drawn ?? Infinity;
    judged.push({ ms, share: ms / bar });
  }
  return judged;
}

/** Enters the times against their bars, and as they are. */
export function enterJudged(
  run: BenchRun,
  figures: { readonly share: { readonly name: string }; readonly canvas: { readonly name: string } },
  name: ClipName,
  judged: readonly Judged[],
): void {
  const shares = judged.map(({ share }) => share);
  const times = judged.map(({ ms }) => ms);
  run.enter(figures.share, name, percentile(shares, 0.95));
  run.enter(figures.canvas, name, percentile(times, 0.95));
}
