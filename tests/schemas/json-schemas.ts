import { toJsonSchema } from '@valibot/to-json-schema';
import type { ConversionConfig } from '@valibot/to-json-schema';
import { format } from 'oxfmt';
import type { GenericSchema } from 'valibot';
import { captureRate, checkpoint, checkpointFrame, frameIndex, frameRef, timeStamp } from '../../core/parse/frames.ts';
import { frameMarks, picturePoint, placedPoint } from '../../core/parse/marks.ts';
import { link, goalsFile, unit } from '../../core/parse/goals.ts';
import { aspect, readingId, readingKey } from '../../core/parse/reading-key.ts';
import { countFromOne, identifier, name, positiveRatio, view } from '../../core/parse/scalars.ts';
import { GOALS_FILE_VERSION } from '../../core/model/goals.ts';
import { SWING_FILE_VERSION } from '../../core/model/swing-file.ts';
import { TALK_FILE_VERSION } from '../../core/model/talk.ts';
import { shape } from '../../core/parse/marks.ts';
import { talkEvent, talkPane, talkText } from '../../core/parse/talk.ts';
import { swingFile, swingFileClip } from '../../core/swing-file/parse-swing-file.ts';
import { talkFile } from '../../core/talk-file/parse-talk-file.ts';

/**
 * The JSON schemas of the file formats, as they follow from the schemas that the program parses by. What a `check` says in
 * code is said to them by metadata beside it; the tests `schema-agrees` hold the two together.
 */

/** What stands once, under $defs, and is referred to. */
const goals = { name, reading: readingId, aspect, view, checkpoint, unit, link };
const swing = {
  ...{ name, view, checkpoint, reading: readingId, aspect, readingKey, id: identifier, count: countFromOne },
  ...{ ratio: positiveRatio, captureRate, frameIndex, timeStamp, frame: frameRef, namedFrame: checkpointFrame },
  ...{ point: picturePoint, placedPoint, frameMarks, clip: swingFileClip },
};
const talk = { ...swing, shape, swing: swingFile, text: talkText, event: talkEvent, pane: talkPane };

/** The text of each schema file by its name in resources. */
export async function jsonSchemas(): Promise<ReadonlyMap<string, string>> {
  const files = [
    ['swing-file', `urn:baybook:swing-file:${String(SWING_FILE_VERSION)}`, swingFile, swing],
    ['goals', `urn:baybook:pattern:${String(GOALS_FILE_VERSION)}`, goalsFile, goals],
    ['talk', `urn:baybook:talk:${String(TALK_FILE_VERSION)}`, talkFile, talk],
  ] as const;
  const texts = files.map(async ([called, id, schema, definitions]): Promise<[string, string]> => {
    const { $schema, ...rest } = jsonSchemaOf(schema, definitions);
    const text = JSON.stringify({ $schema, $id: id, ...rest });
    const name = `${called}.schema.json`;
    return [name, (await format(name, text, { printWidth: 120 })).code];
  });
  return new Map(await Promise.all(texts));
}

function jsonSchemaOf(schema: GenericSchema, definitions: Record<string, GenericSchema>) {
  return toJsonSchema(schema, {
    definitions,
    target: 'draft-2020-12',
    typeMode: 'output',
    // JSON holds no other numbers; what a check says stands in metadata.
    ignoreActions: ['finite', 'check'],
    overrideSchema: namedFields,
  });
}

/** A record of known names: its fields are listed, so that an editor can offer them. */
const namedFields: NonNullable<ConversionConfig['overrideSchema']> = ({ valibotSchema, jsonSchema }) => {
  if (valibotSchema.type !== 'record') return null;
  const names: unknown = Reflect.get(Object(Reflect.get(valibotSchema, 'key')), 'options');
  const of = jsonSchema.additionalProperties;
  if (!Array.isArray(names) || of === undefined) throw new Error('schema: a record without known names');
  const properties = Object.fromEntries(names.map((field: unknown) => [String(field), of]));
  return { type: 'object', properties, additionalProperties: false };
};
