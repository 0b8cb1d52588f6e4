import * as v from 'valibot';
import { LANGUAGE_CHOICES } from '../model/languages.ts';
import { APPEARANCES, ENLARGED_LINES, TEXT_SIZES, UNIT_SYSTEMS, USUAL_SETTINGS } from '../model/settings.ts';
import type { Settings } from '../model/settings.ts';
import { shapeLook } from './marks.ts';

const MOST_KEYS = 8;
const keyName = v.pipe(v.string('must be text'), v.minLength(1, 'must not be empty'), v.maxLength(40, 'is too long'));

const command = v.pipe(v.string(), v.maxLength(80));
const keysOfCommand = v.pipe(v.array(keyName), v.maxLength(MOST_KEYS, `must be ${MOST_KEYS} keys at most`));
const keys = v.record(command, keysOfCommand);
const textSize = v.picklist(TEXT_SIZES);
const appearance = v.picklist(APPEARANCES);
const language = v.picklist(LANGUAGE_CHOICES);
const units = v.picklist(UNIT_SYSTEMS);
const enlargedLines = v.pipe(v.number(), v.minValue(ENLARGED_LINES.least), v.maxValue(ENLARGED_LINES.most));

export const settings: v.GenericSchema<unknown, Settings> = v.strictObject({
  ...{ keys, textSize, appearance },
  /** Files of kept changes may be from before there was a choice. */
  units: v.optional(units, USUAL_SETTINGS.units),
  enlargedLines: v.optional(enlargedLines, USUAL_SETTINGS.enlargedLines),
  drawing: v.exactOptional(shapeLook),
  language: v.exactOptional(language),
});

/** What the settings file holds, and what of it could not be understood, in words. */
export interface SettingsOfFile {
  readonly settings: Settings;
  readonly dropped: readonly string[];
}

const fields = v.record(v.string(), v.unknown());

/**
 * What a settings file says, field by field. A field that is missing has its usual value, others are passed over: files of
 * earlier and later programs are read. One that is wrong has its usual value as well, and is named; of the keys, only
 * those of the command that are wrong. Null where it is no list of settings at all.
 */
export function settingsOfFile(content: unknown): SettingsOfFile | null {
  const file = v.safeParse(fields, content);
  if (!file.success || Array.isArray(content)) return null;
  const dropped: string[] = [];
  const read = <Value>(schema: v.GenericSchema<unknown, Value>, value: unknown, usual: Value, name: string): Value => {
    if (value === undefined) return usual;
    const parsed = v.safeParse(schema, value);
    if (!parsed.success) dropped.push(name);
    return parsed.success ? parsed.output : usual;
  };
  const given = read(fields, file.output['keys'], {}, 'the keys');
  const good = Object.entries(given).filter(([name, list]) => {
    if (v.is(command, name) && v.is(keysOfCommand, list)) return true;
    dropped.push(`the keys of “${name.slice(0, 40)}”`);
    return false;
  });
  const spoken = read(language, file.output['language'], 'system', 'the language');
  const drawing = read(shapeLook, file.output['drawing'], {}, 'the look of shapes');
  return {
    settings: {
      ...(Object.keys(drawing).length === 0 ? {} : { drawing }),
      ...(spoken === 'system' ? {} : { language: spoken }),
      keys: v.parse(keys, Object.fromEntries(good)),
      textSize: read(textSize, file.output['textSize'], USUAL_SETTINGS.textSize, 'the size of text'),
      appearance: read(appearance, file.output['appearance'], USUAL_SETTINGS.appearance, 'light or dark'),
      units: read(units, file.output['units'], USUAL_SETTINGS.units, 'the units'),
      enlargedLines: read(
        enlargedLines,
        file.output['enlargedLines'],
        USUAL_SETTINGS.enlargedLines,
        'the size of the enlarged view',
      ),
    },
    dropped,
  };
}
