import { CHECKPOINTS } from '../../../core/model/words.ts';
import { ask } from '../../e2e/page-hands.ts';
import { nameFrame } from '../../e2e/write-edits.ts';
import { watchCells } from '../in-page/watch-cells.ts';
import { ROWS } from '../bars.ts';
import type { ClipName } from '../bars.ts';
import type { BenchClip } from '../bench-clip.ts';
import type { BenchRun } from '../bench-run.ts';
import { percentile } from '../statistics.ts';
import { closeSwing, openClip, openSwing } from './session.ts';
import type { Session } from './session.ts';

const VIEW = 'face-on';
const LIMIT = 15_000;

/** The sheet of a swing whose eight checkpoints are named, opened when the copy is ready and none of them was seen yet. */
export async function takeCells(run: BenchRun, session: Session, name: ClipName, clip: BenchClip): Promise<void> {
  run.say(`${name}: opening the sheet ...`);
  const { page } = session;
  const { frames } = clip.index;
  const swing = (await ask(page, 'student/list', null))[0]?.lessons[0]?.swings[0];
  const of = { id: swing?.clips[0]?.id ?? '', swingId: swing?.swing.id ?? '' };
  for (const [place, checkpoint] of CHECKPOINTS.entries()) {
    const index = Math.floor(((place + 0.5) * frames.length) / CHECKPOINTS.length);
    await nameFrame(page, of, checkpoint, { index, pts: frames[index]?.pts ?? 0, ticks: 1 });
  }
  await closeSwing(session);
  const seen = page.evaluate(watchCells, { cells: CHECKPOINTS.length, limit: LIMIT });
  await openSwing(session, 'Swing 1');
  const times = (await seen).map((time) => time ?? Infinity);
  run.enter(ROWS.cell.each.first, name, times.length === 0 ? null : percentile(times, 0.95));
  for (const checkpoint of CHECKPOINTS) await nameFrame(page, of, checkpoint, null);
  // Back to where the other figures are taken.
  await closeSwing(session);
  await openSwing(session, 'Swing 1');
  await openClip(session, clip, VIEW);
}
