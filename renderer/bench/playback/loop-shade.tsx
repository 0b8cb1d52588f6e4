import { say } from '../../../core/model/say.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { spanFrames } from './state/loop-span.ts';
import { endsOf, run } from './state/playback.ts';
import { useStore } from '../../shell/state/store.ts';
import { placeOnStrip } from './flags.ts';
import styles from './playback-controls.module.css';

export interface LoopShadeProps {
  readonly clip: BookClip;
  readonly index: ClipIndex;
  /** Of the strip, in CSS pixels. */
  readonly width: number;
}

/** The span of the loop over the strip, with both its ends; nothing while the loop is the whole clip. */
export function LoopShade({ clip, index, width }: LoopShadeProps) {
  const ends = useStore(run, (state) => endsOf(state, clip.id));
  if (ends.start === null && ends.end === null) return null;
  const { from, to } = spanFrames(index.frames, ends);
  const last = index.frames.length - 1;
  const left = placeOnStrip(from, last, width);
  const text = say`Loop from frame ${String(from)} to frame ${String(to)}`;
  return (
    <span
      className={styles.shade}
      role="img"
      aria-label={text}
      style={{ left, width: Math.max(1, placeOnStrip(to, last, width) - left) }}
    />
  );
}
