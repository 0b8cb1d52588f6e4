import type { Page } from 'playwright-core';
import type { BookClip, Clip } from '../../core/model/book.ts';
import type { CheckpointFrame } from '../../core/model/frame.ts';
import type { FrameMarks } from '../../core/model/mark.ts';
import type { Checkpoint } from '../../core/model/words.ts';
import { ask } from './page-hands.ts';

/** What a test changes of a swing past the page's own state, by the road that the page takes; the page learns it anew. */

type OfSwing = Pick<Clip, 'id' | 'swingId'>;

/** Replaces all that is marked on one frame; the edit says that nothing was there. */
export async function writeMarks(page: Page, { id, swingId }: OfSwing, after: FrameMarks): Promise<void> {
  const before = { ...after, points: {}, shapes: [] };
  await ask(page, 'edit/write', { does: 'make', edit: { kind: 'marks', swingId, clipId: id, before, after } });
}

/** Names a frame, or with null takes the name away. */
export async function nameFrame(
  page: Page,
  { id, swingId }: OfSwing,
  checkpoint: Checkpoint,
  after: CheckpointFrame | null,
): Promise<void> {
  const edit = { kind: 'checkpoint', swingId, clipId: id, checkpoint, before: null, after } as const;
  await ask(page, 'edit/write', { does: 'make', edit });
}

/** Takes all marks away. */
export async function clearMarks(page: Page, clip: BookClip): Promise<void> {
  for (const { frame } of clip.marks) await writeMarks(page, clip, { frame, points: {}, shapes: [] });
}

/** Takes all names away. */
export async function clearNames(page: Page, clip: BookClip): Promise<void> {
  for (const checkpoint of Object.keys(clip.checkpoints) as Checkpoint[]) await nameFrame(page, clip, checkpoint, null);
}
