import type { PipedFrame } from '../decode/frame-pipe.ts';
import type { ProcessEnd } from '../process/run-ffmpeg.ts';
import { CopyOrder, NOTHING_LOOKED_AT } from './copy-order.ts';
import type { LookedAt } from './copy-order.ts';
import { endedByForce, flush, hasFrame, keepAndCancel, owning, readNext, stopPass } from './copy-work.ts';
import type { CopyWork, ProxyBuild } from './copy-work.ts';
import type { ProxyPass } from './proxy-pass.ts';

/**
 * `whole`: no frame of the table is missing. `astray`: the clip is not what its table says, and is to be decoded from its
 * start. `lost`: another process writes the copy. `failed`: ffmpeg ended for nothing in the clip.
 */
export type PartsMade =
  | { readonly came: 'whole' | 'astray' | 'lost' }
  | { readonly came: 'failed'; readonly end: ProcessEnd };

/** A frame of the table with its picture. */
interface MadeFrame {
  readonly frame: number;
  readonly picture: PipedFrame;
}

/**
 * Makes the parts of a clip (`starts`, see `partStarts`) that a copy lacks, those that are looked at first. One pass goes on
 * from part to part until another one is wanted. What it made by then stays, so it loses what it decoded up to there at most.
 *
 * Throws AppError `cancelled`, `disk-full`, `not-writable`.
 */
export async function buildParts(work: CopyWork, starts: readonly number[]): Promise<PartsMade> {
  const { index, run } = work;
  const order = new CopyOrder(starts, index.frames.length, (frame) => hasFrame(work, frame));
  for (;;) {
    const next = order.next(lookedAt(run));
    if (next === null) return { came: 'whole' };
    // From just behind the frame before: a picture that the table does not know would come too.
    const earlier = next === 0 ? undefined : index.frames[next - 1];
    const pass = work.startPass(earlier === undefined ? null : earlier.pts + 1, next);
    const { came, last } = await owning(pass, takePart(pass, work, order, next));
    if (run.signal.aborted) return keepAndCancel(work, pass, false);
    if (came === 'left' || came === 'lost') {
      await stopPass(pass);
      if (came === 'lost') return { came };
      continue;
    }
    if (came !== 'ended') pass.run.stop();
    const end = await pass.run.end;
    if (end.startError !== null || end.timedOut || (came === 'ended' && endedByForce(end)))
      return { came: 'failed', end };
    const isWhole = came === 'ended' && !pass.run.complained() && end.exitCode === 0;
    if (!isWhole || last === null || last.frame !== index.frames.length - 1) return { came: 'astray' };
    if (!(await keep(work, order, last))) return { came: 'lost' };
  }
}

/**
 * Takes the pictures of a part, from frame `next` on, each once the one behind it has come. `last` still waits for that.
 * `ended`: the output came to its end, or broke off. `left`: what comes next is there, or another part is wanted first.
 * `astray`: these are not the frames of the table.
 */
async function takePart(
  pass: ProxyPass,
  work: CopyWork,
  order: CopyOrder,
  next: number,
): Promise<{ readonly came: 'ended' | 'left' | 'astray' | 'lost'; readonly last: MadeFrame | null }> {
  const { run, index } = work;
  let last: MadeFrame | null = null;
  for (let frame = next; ; frame += 1) {
    const read = await readNext(pass, run);
    if (read === null || run.signal.aborted) return { came: 'ended', last };
    if (pass.run.complained()) return { came: 'astray', last };
    if (read.done === true) return { came: 'ended', last };
    if (read.value.pts !== index.frames[frame]?.pts) return { came: 'astray', last };
    if (last !== null && !(await keep(work, order, last))) return { came: 'lost', last };
    last = { frame, picture: read.value };
    // The first is what it was begun for.
    if (frame > next && (hasFrame(work, frame) || order.leaves(frame, lookedAt(run)))) return { came: 'left', last };
  }
}

/** Puts a picture into the copy. Returns false where another process writes it now. */
async function keep(work: CopyWork, order: CopyOrder, { frame, picture }: MadeFrame): Promise<boolean> {
  const { file, index, run } = work;
  file.add(picture);
  order.made(frame);
  if (file.batch.full && !(await flush(work, false))) return false;
  run.onFrame?.(file.count, index.frames.length);
  return true;
}

function lookedAt(run: ProxyBuild): LookedAt {
  return run.lookedAt?.() ?? NOTHING_LOOKED_AT;
}
