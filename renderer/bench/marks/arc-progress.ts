import { say } from '../../../core/model/say.ts';
import { FEWEST_POINTS } from '../../../core/geometry/fit-arc.ts';
import { FEWEST_FRAMES_A_SECOND } from '../../../core/measure/arc/read-speed.ts';
import { clubheadPathOf, placesOf } from '../../../core/measure/arc/clubhead-path.ts';
import { CATALOGUE } from '../../../core/measure/catalogue/catalogue.ts';
import { labelOf, listed, missingWords } from '../../../core/measure/words/format.ts';
import type { MarkedClip } from '../../../core/model/swing.ts';
import type { MissingReading, Reading } from '../../../core/model/reading.ts';

/** What the path of the clubhead is good for, and what each of these still wants. */
export interface ArcProgress {
  readonly words: string;
  readonly wants: readonly string[];
}

/** Places down the line that show whether they lie on a line. */
const FEWEST_EDGE_PLACES = 4;

/** `readings`: those of the swing. Down the line the path only tells how the arc leans. */
export function arcProgress(clip: MarkedClip, readings: readonly Reading[]): ArcProgress {
  const path = clubheadPathOf(clip);
  const count = path === null ? 0 : placesOf(path, 'impact', clip).length;
  if (clip.view === 'down-the-line') {
    const left = FEWEST_EDGE_PLACES - count;
    return {
      words: say`Round impact it tells how much the arc leans, which makes radius and speed, read face on, truer.`,
      wants: left > 0 ? [say`It needs ${frames(left, count)} round impact.`] : [],
    };
  }
  const words = say`Round impact it gives the arc: its radius, its low point and, from ${String(FEWEST_FRAMES_A_SECOND)} true frames a second, the clubhead's speed.`;
  if (clip.checkpoints.impact === undefined) return { words, wants: [say`Name the frame of impact.`] };
  const left = FEWEST_POINTS - count;
  if (left > 0) return { words, wants: [say`The arc needs ${frames(left, count)} round impact.`] };
  const missing = readings.filter(
    (reading): reading is MissingReading =>
      reading.state === 'missing' && reading.view === clip.view && isOfArc(reading),
  );
  const sentences = [...new Set(missing.map(missingWords))];
  const wants = sentences.map((sentence) => {
    const of = missing.filter((reading) => missingWords(reading) === sentence).map(labelOf);
    return `${listed(of)}: ${sentence}`;
  });
  return { words, wants };
}

function isOfArc({ id }: Reading): boolean {
  const { quantity } = CATALOGUE[id];
  return quantity === 'arc' || quantity === 'speed';
}

function frames(left: number, count: number): string {
  if (count === 0) return left === 1 ? say`1 frame` : say`${left} frames`;
  return left === 1 ? say`1 more frame` : say`${left} more frames`;
}
