import type { BodyPointId } from '../../model/body-points.ts';
import type { MeasuredReading, Reading } from '../../model/reading.ts';
import type { Checkpoint, View } from '../../model/words.ts';

/** A mark of which one asks what is read from it. */
export type ReadMark =
  /** `checkpoints`: all that the frame bears the name of; a point of a frame without a name is read nowhere. */
  | {
      readonly kind: 'point';
      readonly point: BodyPointId;
      readonly view: View;
      readonly checkpoints: readonly Checkpoint[];
    }
  | { readonly kind: 'shape'; readonly id: string };

/**
 * The readings that would change if the mark were moved, in their own order: also those of other checkpoints, such as a
 * shift since address from a point at address. A head box, a plumb and a known length count for all that lean on them.
 */
export function readingsMadeFrom(readings: readonly Reading[], mark: ReadMark): readonly MeasuredReading[] {
  return readings.filter((reading) => reading.state === 'measured').filter((reading) => isMadeFrom(reading, mark));
}

function isMadeFrom(reading: MeasuredReading, mark: ReadMark): boolean {
  if (mark.kind === 'shape') return reading.shapes.includes(mark.id);
  if (reading.view !== mark.view) return false;
  return reading.from.some(({ point, checkpoint }) => point === mark.point && mark.checkpoints.includes(checkpoint));
}
