import { setTimeout as rest } from 'node:timers/promises';
import { seeded } from '../../support/seeded.ts';
import { ROWS } from '../bars.ts';
import type { ClipName } from '../bars.ts';
import type { BenchClip } from '../bench-clip.ts';
import type { BenchRun } from '../bench-run.ts';
import type { Answer, Order } from '../in-page/contract.ts';
import { timePlainSeek } from '../plain/plain-ffmpeg.ts';
import { describeRun, percentile, ratio } from '../statistics.ts';
import type { RunOfPictures } from '../statistics.ts';
import { jumpTo, spreadFrames, stepOrders } from './plans.ts';
import { waitForQuiet } from './processes.ts';
import type { Session } from './session.ts';

const SEED = 33;
/** A hand steps up to ten times a second; ms. */
const HAND_PAUSE = 110;
/** A hand that jumps looks at where it came; ms. */
const LOOK_PAUSE = 300;

const act = (session: Session, orders: readonly Order[]): Promise<readonly Answer[]> =>
  session.page.evaluate((all) => window.bench.carryOut(all), orders);
/** A picture that never came counts as endless, so that a percentile of it is no figure. */
const drawnOf = (answers: readonly Answer[]): number[] => answers.map(({ drawn }) => drawn ?? Infinity);

/** Single steps, apart by whether their frame's data had come before the key was pressed. */
export async function takeSteps(run: BenchRun, session: Session, name: ClipName, clip: BenchClip): Promise<void> {
  run.say(`${name}: single steps ...`);
  const places = run.quick ? 2 : 4;
  const orders = stepOrders(clip.truth.frames.length, places, HAND_PAUSE, seeded(SEED));
  const answers = await act(session, orders);
  const of = (shift: boolean): readonly Answer[] =>
    answers.filter((_, place) => {
      const pressed = orders[place]?.act;
      return pressed?.kind === 'key' && pressed.shift === shift;
    });
  const [singles, steps] = [of(false), [...of(false), ...of(true)]];
  // A page that tells of no data at all cannot be asked what was fetched ahead.
  const tells = answers.some(({ data }) => data !== null);
  if (!tells) run.say(`${name}: the page told of no data that arrived`);
  const isAhead = ({ data }: Answer): boolean => data === null;
  const ahead = tells ? steps.filter(isAhead) : [];
  const late = steps.filter((step) => !isAhead(step));
  const { each } = ROWS.step;
  run.enter(each.ahead, name, percentile(drawnOf(ahead), 0.95));
  run.enter(
    each.aheadHanded,
    name,
    percentile(
      ahead.map(({ handed }) => handed ?? Infinity),
      0.95,
    ),
  );
  run.enter(each.late, name, percentile(drawnOf(late), 0.95));
  const share = ratio(singles.filter(isAhead).length, singles.length);
  run.enter(each.aheadShare, name, tells && share !== null ? 100 * share : null);
}

/** Jumps with the copy whole, against ffmpeg's own seek to the same frames. */
export async function takeJumps(run: BenchRun, session: Session, name: ClipName, clip: BenchClip): Promise<void> {
  run.say(`${name}: random jumps, and ffmpeg's own seeks ...`);
  const count = run.quick ? 8 : 24;
  const frames = spreadFrames(0, clip.truth.frames.length - 1, count, seeded(SEED + 1));
  const answers = await timeJumps(session, frames);
  await waitForQuiet(session.pid);
  const seeks: number[] = [];
  for (const frame of frames.slice(0, run.quick ? 4 : 12)) seeks.push(await timePlainSeek(clip, frame));
  const { each } = ROWS.jump;
  const canvas = percentile(drawnOf(answers), 0.95);
  const seek = percentile(seeks, 0.95);
  run.enter(
    each.data,
    name,
    percentile(
      answers.flatMap(({ data }) => data ?? []),
      0.95,
    ),
  );
  run.enter(each.canvas, name, canvas);
  run.enter(each.canvasMiddle, name, percentile(drawnOf(answers), 0.5));
  run.enter(each.seek, name, seek);
  run.enter(each.seekMiddle, name, percentile(seeks, 0.5));
  run.enter(each.quicker, name, ratio(seek, canvas));
}

export function timeJumps(session: Session, frames: readonly number[]): Promise<readonly Answer[]> {
  return act(
    session,
    frames.map((frame) => jumpTo(frame, { pause: LOOK_PAUSE })),
  );
}

/** A key that is held, as the system repeats it: forward, then backward. */
export async function takeHeldKey(run: BenchRun, session: Session, name: ClipName, clip: BenchClip): Promise<void> {
  run.say(`${name}: held key ...`);
  const seconds = run.quick ? 1.5 : 3;
  const middle = Math.floor(clip.truth.frames.length / 2);
  const forward = await holdKey(session, 'ArrowRight', middle - 100, seconds);
  const backward = await holdKey(session, 'ArrowLeft', middle + 100, seconds);
  const { each } = ROWS.held;
  run.enter(each.rate, name, forward.rate);
  run.enter(each.backRate, name, backward.rate);
  run.enter(each.skipped, name, forward.skipped + backward.skipped);
  run.enter(each.disordered, name, forward.disordered + backward.disordered);
}

/** Repeats of a held key a second on most systems; it is the system's keys that come, through the whole program. */
const REPEATS_A_SECOND = 30;

export async function holdKey(
  session: Session,
  key: 'ArrowRight' | 'ArrowLeft',
  from: number,
  seconds: number,
): Promise<RunOfPictures> {
  const { page } = session;
  await act(session, [jumpTo(from, { pause: LOOK_PAUSE })]);
  await page.getByRole('application').focus();
  await rest(LOOK_PAUSE);
  await page.evaluate(() => window.bench.forget());
  const start = performance.now();
  for (let repeat = 0; repeat < seconds * REPEATS_A_SECOND; repeat += 1) {
    const due = start + (repeat * 1000) / REPEATS_A_SECOND;
    await rest(Math.max(0, due - performance.now()));
    await page.keyboard.down(key);
  }
  await page.keyboard.up(key);
  const seen = await page.evaluate(() => window.bench.seen);
  return describeRun(
    seen.filter(({ kind }) => kind === 'painted'),
    key === 'ArrowRight' ? 1 : -1,
  );
}
