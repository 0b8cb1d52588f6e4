import * as v from 'valibot';
import { APPEARANCES, TEXT_SIZES } from '../model/settings.ts';
import type { Settings } from '../model/settings.ts';

const MOST_KEYS = 8;
const keyName = v.pipe(v.string('must be text'), v.minLength(1, 'must not be empty'), v.maxLength(40, 'is too long'));

const keys = v.record(
  v.pipe(v.string(), v.maxLength(80)),
  v.pipe(v.array(keyName), v.maxLength(MOST_KEYS, `must be ${MOST_KEYS} keys at most`)),
);
const textSize = v.picklist(TEXT_SIZES);
const appearance = v.picklist(APPEARANCES);

export const settings: v.GenericSchema<unknown, Settings> = v.strictObject({ keys, textSize, appearance });

/** What the settings file holds. A field that is missing has its usual value, others are passed over: files of earlier and later programs are read. */
export const settingsFile: v.GenericSchema<unknown, Settings> = v.object({
  keys: v.optional(keys, {}),
  textSize: v.optional(textSize, 100),
  appearance: v.optional(appearance, 'system'),
});
