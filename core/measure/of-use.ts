import type { MeasuredReading } from '../model/reading.ts';

/**
 * Whether a number is worth showing: an angle of two points that nearly touch is none, nobody can do anything with
 * "4° ± 83°". Such readings are kept as data and left out of stills and lists.
 */
export function isOfUse({ notes }: Pick<MeasuredReading, 'notes'>): boolean {
  return !notes.includes('short-line');
}
