import { useEffect, useRef } from 'react';
import type { RefObject } from 'react';
import type { BookClip } from '../../core/model/book.ts';
import type { Edit } from '../../core/model/edit.ts';
import type { Checkpoint } from '../../core/model/words.ts';
import { lastStep } from '../swing/state/last-step.ts';
import { useStore } from './state/store.ts';

/** Scrolls a cell of the sheet into sight when an edit that shows in it was taken back or made again. */
export function useIntoSight(clip: BookClip | undefined, checkpoint: Checkpoint): RefObject<HTMLDivElement | null> {
  const cell = useRef<HTMLDivElement>(null);
  const step = useStore(lastStep, (each) => each);
  // What was stepped before the cell was there has been seen.
  const seen = useRef(step);
  useEffect(() => {
    if (step === null || seen.current === step) return;
    seen.current = step;
    if (clip !== undefined && showsIn(step.edit, clip, checkpoint)) cell.current?.scrollIntoView({ block: 'nearest' });
  }, [step, clip, checkpoint]);
  return cell;
}

function showsIn(edit: Edit, clip: BookClip, checkpoint: Checkpoint): boolean {
  if (edit.kind === 'marks')
    return edit.clipId === clip.id && edit.after.frame.index === clip.checkpoints[checkpoint]?.index;
  return edit.kind === 'checkpoint' && edit.clipId === clip.id && edit.checkpoint === checkpoint;
}
