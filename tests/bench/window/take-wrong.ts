import { seeded } from '../../support/seeded.ts';
import { ROWS } from '../bars.ts';
import type { ClipName } from '../bars.ts';
import type { BenchClip } from '../bench-clip.ts';
import type { BenchRun } from '../bench-run.ts';
import { checkingOrders } from './plans.ts';
import type { Session } from './session.ts';
import { holdKey } from './take-moving.ts';

const SEED = 2000;
const REQUESTS = 2000;
/** Orders that are sent to the page at a time; between them the bench can say how far it is. */
const AT_A_TIME = 500;
const SLIDES = 12;
const SLIDE_FRAMES = 25;
const SLIDE_EVERY_MS = 16;
const SLIDE_LIMIT_MS = 10_000;

/**
 * Reads the number in every picture that is painted while a hand steps, jumps, slides and holds a key. Wrong is a paint
 * that says it is one frame and carries the number of another, and a request that no picture answered.
 */
export async function takeWrongFrames(run: BenchRun, session: Session, name: ClipName, clip: BenchClip): Promise<void> {
  const { page } = session;
  const { frames } = clip.truth;
  const random = seeded(SEED);
  const keys = frames.flatMap(({ key }, index) => (key ? [index] : []));
  const orders = checkingOrders(frames.length, keys, run.quick ? 250 : REQUESTS, random);
  await page.evaluate(
    (codes) => window.bench.beginChecking(codes),
    frames.map(({ code }) => code),
  );
  let [answered, unanswered] = [0, 0];
  for (let from = 0; from < orders.length; from += AT_A_TIME) {
    run.say(`${name}: reading the numbers of ${orders.length} requested frames, ${from} done ...`);
    const part = orders.slice(from, from + AT_A_TIME);
    const answers = await page.evaluate((all) => window.bench.carryOut(all), part);
    answered += answers.length;
    unanswered += answers.filter(({ drawn }) => drawn === null).length;
    if (answers.length < part.length) break;
  }
  for (let slide = 0; slide < SLIDES; slide += 1) {
    const start = Math.floor(random() * frames.length);
    const by = (random() < 0.5 ? -1 : 1) * (1 + Math.floor(random() * 4));
    const path = Array.from({ length: SLIDE_FRAMES }, (_, place) => start + by * place);
    const inside = [...new Set(path.map((frame) => Math.min(frames.length - 1, Math.max(0, frame))))];
    if (inside.length < 3) continue;
    const slides = { frames: inside, every: SLIDE_EVERY_MS, limit: SLIDE_LIMIT_MS };
    const came = await page.evaluate((all) => window.bench.slide(all.frames, all.every, all.limit), slides);
    answered += 1;
    if (!came) unanswered += 1;
  }
  await holdKey(session, 'ArrowRight', Math.floor(frames.length / 3), 1.5);
  await holdKey(session, 'ArrowLeft', Math.floor((2 * frames.length) / 3), 1.5);
  const checked = await page.evaluate(() => window.bench.endChecking());
  for (const line of checked.wrong) run.say(`${name}: wrong: ${line}`);
  if (unanswered > 0) run.say(`${name}: ${unanswered} requests were not answered by a picture`);
  const { each } = ROWS.wrong;
  run.enter(each.wrong, name, checked.paints === 0 ? null : checked.wrongCount + unanswered);
  run.enter(each.requests, name, answered);
  run.enter(each.paints, name, checked.paints);
  run.enter(each.sharp, name, checked.sharp);
}
