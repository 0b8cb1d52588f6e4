import * as v from 'valibot';
import { READING_IDS } from '../model/reading.ts';
import type { ReadingKey } from '../model/reading.ts';
import { checkpoint } from './frames.ts';
import { view } from './scalars.ts';

export const readingId = v.pipe(v.picklist(READING_IDS), v.description('Id of a reading.'));
export const aspect = v.pipe(
  v.picklist(['value', 'change']),
  v.description('How the reading stands at the checkpoint, or how it changed since address.'),
);
export const readingKey: v.GenericSchema<unknown, ReadingKey> = v.strictObject({
  id: readingId,
  aspect,
  view,
  checkpoint,
});

const keyText = ({ id, aspect, view: of, checkpoint: at }: ReadingKey): string => [id, aspect, of, at].join(' ');

/** Readings that stand on the stills, each once. */
export const pinnedReadings = v.pipe(
  v.array(readingKey),
  v.check((keys) => new Set(keys.map(keyText)).size === keys.length, 'must name each reading once'),
  v.metadata({ uniqueItems: true }),
);
