import type { Clip } from '../../../core/model/book.ts';
import { ask } from '../../e2e/page-hands.ts';
import { seeded } from '../../support/seeded.ts';
import { LONG, ROWS } from '../bars.ts';
import type { BenchRun } from '../bench-run.ts';
import { takeClip } from '../clips/clip-store.ts';
import { pressUntilPicture } from '../in-page/press-until-picture.ts';
import { jumpTo } from './plans.ts';
import { chooseClip, openSession, openSwing } from './session.ts';
import type { SeenClip, Session } from './session.ts';

const KEPT_LIMIT_MS = 60_000;
/** The film of three minutes is that of 20 seconds, nine times. */
const FILM_FRAMES = 4800;
/** Jumps in threes once the swing has its own file. */
const ROUNDS_AFTER = 5;

/** Keeps a swing of three minutes, and watches the bench from its first picture until after it has a file of its own. */
export async function takeKeepFigures(run: BenchRun): Promise<void> {
  const path = await takeClip(run.store, LONG);
  run.say('three minutes: a swing is kept in the window ...');
  const { first, done, wrong } = await takeKeeping({ path, stored: run.store.films.recipes[LONG].size, turn: 0 });
  run.enter(ROWS.keep.long.shown, LONG, first);
  run.enter(ROWS.keep.long.done, LONG, done);
  run.enter(ROWS.keep.long.wrong, LONG, wrong);
}

/**
 * Keeps a swing of four seconds and opens it the moment that it can be. Ms until the bench shows it, and until it has a file of
 * its own. How many pictures were wrong while a hand jumped about in it, from its first picture till after that.
 */
async function takeKeeping(clip: SeenClip) {
  const session = await openSession(['Swing 1']);
  const { page } = session;
  try {
    await openSwing(session, 'Swing 1');
    await chooseClip(session, clip, 'face-on');
    await page.getByText('Looking at the clip ...').waitFor({ state: 'detached' });
    const from = page.getByLabel('From, seconds');
    await from.fill('90');
    await from.press('Tab');
    const to = page.getByLabel('To, seconds');
    await to.fill('94');
    await to.press('Tab');
    const keep = { press: 'Add the swing', then: 'Open clip, Face on', wait: 'painted', limit: KEPT_LIMIT_MS } as const;
    const start = performance.now();
    const first = await page.evaluate(pressUntilPicture, keep);
    const [added] = await clipsOf(session);
    if (added?.kept === null || added === undefined) throw new Error('no part was kept');
    const { kept, frameCount } = added;
    // The film is the one of 20 seconds, nine times.
    const codes = Array.from({ length: frameCount }, (_, frame) => (kept.first + frame) % FILM_FRAMES);
    await page.evaluate((all) => window.bench.beginChecking(all), codes);
    const random = seeded(4);
    let [done, unanswered, after]: [number | null, number, number] = [null, 0, 0];
    while (after < ROUNDS_AFTER && performance.now() - start < KEPT_LIMIT_MS) {
      if (done === null && (await clipsOf(session)).every(({ coming }) => coming !== true))
        done = performance.now() - start;
      if (done !== null) after += 1;
      const orders = [0, 1, 2].map((each) =>
        jumpTo(Math.floor(random() * frameCount), { want: each === 2 ? 'sharp' : 'any' }),
      );
      const answers = await page.evaluate((all) => window.bench.carryOut(all), orders);
      unanswered += answers.filter(({ drawn }) => drawn === null).length;
    }
    const checked = await page.evaluate(() => window.bench.endChecking());
    return { first, done, wrong: checked.paints === 0 ? null : checked.wrongCount + unanswered };
  } finally {
    await session.program.close();
  }
}

async function clipsOf({ page }: Session): Promise<readonly Clip[]> {
  const [student] = await ask(page, 'student/list', null);
  return (await ask(page, 'swing/open', { id: student?.lessons[0]?.swings[0]?.swing.id ?? '' })).clips;
}
