import type { BookClip } from '../../../core/model/book.ts';
import type { ReadingKey } from '../../../core/model/reading.ts';
import { app } from '../../shell/state/app-state.ts';
import { openBench, showReading } from '../state/bench-actions.ts';

/** Brings the frame of a reading to the bench and picks out what it measures. */
export function showOnItsFrame(clip: BookClip, { id, aspect, view, checkpoint }: ReadingKey): void {
  const frame = clip.checkpoints[checkpoint];
  const { bench } = app.get();
  if (frame !== undefined && (bench?.clipId !== clip.id || bench.index !== frame.index))
    openBench(clip.id, frame.index);
  showReading({ id, aspect, view, checkpoint });
}
