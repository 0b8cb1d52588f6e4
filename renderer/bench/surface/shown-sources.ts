import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { BookClip, BookSwing } from '../../../core/model/book.ts';
import { sideOf } from '../../../core/geometry/point.ts';
import { sameReading } from '../../../core/model/reading.ts';
import type { Reading, ReadingKey } from '../../../core/model/reading.ts';
import { CHECKPOINTS } from '../../../core/model/words.ts';
import { readingsMadeFrom } from '../../../core/measure/readings/made-from.ts';
import type { LessonReport } from '../../../core/report/lesson-report.ts';
import type { DrawItem } from '../../../core/painting/draw-item.ts';
import type { Style } from '../../../core/painting/styles.ts';
import { readingItems } from '../../../core/painting/reading-items.ts';
import type { Target } from '../../tools/target.ts';

/** What the frame on the bench has of the shown reading. */
export interface BenchSources {
  /** The body points and shapes of this frame that it is made from. */
  readonly points: readonly BodyPointId[];
  readonly shapes: readonly string[];
  /** What it measures along, drawn over the marks. */
  readonly lines: readonly DrawItem[];
}

export const NO_SOURCES: BenchSources = { points: [], shapes: [], lines: [] };

/** Of the shown reading, where the frame on the bench is that of its own view and checkpoint; else nothing. */
export function sourcesOf(
  shown: ReadingKey | null,
  { now: readings, figures }: Pick<LessonReport, 'now' | 'figures'>,
  at: { readonly swing: BookSwing; readonly clipId: string; readonly index: number; readonly look: Style },
): BenchSources {
  const clip = at.swing.clips.find(({ id }) => id === at.clipId);
  const reading = shown === null ? undefined : readings.find((each) => sameReading(each, shown));
  if (clip === undefined || reading?.state !== 'measured' || reading.view !== clip.view) return NO_SOURCES;
  if (clip.checkpoints[reading.checkpoint]?.index !== at.index) return NO_SOURCES;
  const points = reading.from.filter((source) => source.checkpoint === reading.checkpoint);
  const side = sideOf(at.swing.lesson.handedness);
  return {
    points: points.map((source) => source.point),
    shapes: reading.shapes,
    lines: readingItems(reading, {
      ...{ clip, side, look: at.look, figures },
      others: at.swing.clips.filter((each) => each !== clip),
    }),
  };
}

/** What is read from the selected mark of a frame; nothing where none is selected. */
export function readingsOfSelected(
  readings: readonly Reading[],
  selected: Target | null,
  { clip, index }: { readonly clip: BookClip; readonly index: number },
): readonly Reading[] {
  if (selected === null) return [];
  if (selected.kind === 'shape') return readingsMadeFrom(readings, { kind: 'shape', id: selected.id });
  const checkpoints = CHECKPOINTS.filter((checkpoint) => clip.checkpoints[checkpoint]?.index === index);
  return readingsMadeFrom(readings, { kind: 'point', point: selected.point, view: clip.view, checkpoints });
}
