import type { ReadingId, Unit } from '../../model/reading.ts';
import { UNITS } from '../../model/reading.ts';
import { CATALOGUE } from './catalogue.ts';
import type { BodyLength } from './entry.ts';

const PART_OF: Readonly<Record<BodyLength, Unit>> = {
  'head-box': '% head box',
  'shoulder-width': '% shoulder width',
  'leg-length': '% leg length',
  club: 'club lengths',
};

/**
 * The units in which something can be wanted or tolerated of a reading, the usual one first. Pixels and times on screen
 * are none: they mean another thing in each clip. A quantity that is not known here is offered every unit.
 */
export function unitsFor(reading: ReadingId | null): readonly Unit[] {
  const entry = reading === null ? null : CATALOGUE[reading];
  switch (entry?.quantity) {
    case 'angle':
      return ['deg'];
    case 'length':
      return 'reference' in entry && entry.reference !== null ? ['cm', PART_OF[entry.reference]] : ['cm'];
    case 'ratio':
    case 'time-ratio':
      return ['ratio'];
    case 'time':
      return ['s'];
    case 'arc':
      return ['cm', PART_OF['shoulder-width']];
    case 'speed':
      return ['m/s'];
    default:
      return UNITS.filter((unit) => unit !== 'px' && unit !== 's on screen');
  }
}
