import * as v from 'valibot';
import { HANDEDNESS, VIEWS } from '../model/words.ts';
import { DAY } from './day.ts';

/**
 * The small values that records and files are made of. The message of each rule completes "<field> ...". Descriptions and
 * metadata are for the JSON schemas of the file formats: metadata says in JSON Schema what a `check` says in code.
 */

export const MAXIMUM_NAME_LENGTH = 80;
export const MAXIMUM_NOTE_LENGTH = 4000;

/** Control characters would break a caption or a mail header. */
const isControl = (character: string): boolean => {
  const code = character.codePointAt(0) ?? 0;
  return code < 32 || code === 127;
};
const characters = (text: string): string[] => [...text];

export const finiteNumber = v.pipe(v.number('must be a number'), v.finite('must be a finite number'));
export const wholeNumber = v.pipe(
  v.number('must be a number'),
  v.safeInteger('must be a whole number'),
  v.description('A whole number that an 8-byte float holds exactly.'),
);
export const countFromZero = v.pipe(wholeNumber, v.minValue(0, 'must be 0 or more'));
export const countFromOne = v.pipe(
  wholeNumber,
  v.minValue(1, 'must be 1 or more'),
  v.description('A whole number, 1 or more.'),
);
export const length = v.pipe(finiteNumber, v.minValue(0, 'must be 0 or more'));
export const positive = v.pipe(finiteNumber, v.gtValue(0, 'must be more than 0'));

/** One line of text with something in it, at most 80 characters, kept as it stands. */
export const name = v.pipe(
  v.string('must be text'),
  v.check((text) => text.trim() !== '', 'must not be empty'),
  v.check((text) => characters(text).length <= MAXIMUM_NAME_LENGTH, 'must have at most 80 characters'),
  v.check((text) => !characters(text).some(isControl), 'must be one line of plain text'),
  v.metadata({ minLength: 1, maxLength: MAXIMUM_NAME_LENGTH, pattern: '^[^\\u0000-\\u001f\\u007f]*$' }),
  v.metadata({ allOf: [{ pattern: '\\S' }] }),
  v.description('One line of 1 to 80 characters, not only spaces.'),
);

/** As `name`, after spaces at its ends are taken away: for what a person typed. */
export const typedName = v.pipe(v.string('must be text'), v.trim(), name);

/** As `typedName`, but may be empty. */
export const typedNameOrEmpty = v.pipe(
  v.string('must be text'),
  v.trim(),
  v.union([v.literal(''), name], 'must be one line of at most 80 characters'),
);

export const note = v.pipe(
  v.string('must be text'),
  v.check((text) => characters(text).length <= MAXIMUM_NOTE_LENGTH, 'must have at most 4000 characters'),
);

/** A real day, ISO 8601, from 1900 to 2999. */
export const day = v.pipe(
  v.string('must be text'),
  v.regex(DAY, 'must be a real day, written like 2026-05-12'),
  v.description('A real day of the years 1900 to 2999, ISO 8601: 2026-05-12.'),
);

export const identifier = v.pipe(
  v.string('must be text'),
  v.regex(/^[0-9a-fA-F]{8}(?:-[0-9a-fA-F]{4}){3}-[0-9a-fA-F]{12}$/, 'must be a UUID'),
  v.description('A UUID.'),
);
export const sha256 = v.pipe(
  v.string('must be text'),
  v.regex(/^[0-9a-f]{64}$/, 'must be 64 hex digits in lower case'),
  v.description("SHA-256 of the clip's bytes."),
);

export const view = v.pipe(v.picklist(VIEWS), v.description('Where the camera stood.'));
export const handedness = v.pipe(
  v.picklist(HANDEDNESS),
  v.description('Which way the player plays. Lead is left for a right-handed player.'),
);

/** Two whole numbers, both 1 or more: rates, time bases and pixel aspects are all positive. */
export const positiveRatio = v.pipe(
  v.strictObject({ num: countFromOne, den: countFromOne }),
  v.description('num / den, both whole and positive, e.g. 30000 / 1001.'),
);
