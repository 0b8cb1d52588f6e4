import * as v from 'valibot';
import { AppError } from '../model/errors.ts';
import { LINK_MISSES, PATTERN_FILE_VERSION } from '../model/pattern.ts';
import type { Pattern, PatternFile } from '../model/pattern.ts';
import { READING_IDS, UNITS } from '../model/reading.ts';
import { checkpoint } from './frames.ts';
import { countFromOne, finiteNumber, name, view } from './scalars.ts';
import { firstTrouble } from './sentence.ts';

/** Characters of one remark. Room for a paragraph; a book pasted in by mistake does not fit. */
const LONGEST_REMARK = 600;
/** Entries of one list. Far more than a coach can keep in mind, few enough to be shown. */
const LONGEST_LIST = 500;
const MOST_LINKS = 20;

/** Text that may be empty or run over lines. */
const remark = v.pipe(
  v.string('must be text'),
  v.check((text) => [...text].length <= LONGEST_REMARK, `must have at most ${String(LONGEST_REMARK)} characters`),
);
const reading = v.picklist(READING_IDS);
const aspect = v.picklist(['value', 'change']);
const unit = v.picklist(UNITS);
const limit = v.nullable(finiteNumber);

/** Each once, in whichever case. */
const differ = (names: readonly string[]): boolean =>
  new Set(names.map((each) => each.trim().toLowerCase())).size === names.length;
const onceEach = <Entry extends v.GenericSchema<unknown, string>>(entry: Entry) =>
  v.pipe(
    v.array(entry),
    v.check((names) => differ(names), 'must name each once'),
  );
const atMost = <Entry extends v.GenericSchema>(entry: Entry) =>
  v.pipe(v.array(entry), v.maxLength(LONGEST_LIST, `must have at most ${String(LONGEST_LIST)} entries`));

const wantedRange = v.pipe(
  v.strictObject({
    reading: v.nullable(reading),
    aspect,
    views: onceEach(view),
    checkpoints: onceEach(checkpoint),
    clubs: onceEach(name),
    from: limit,
    to: limit,
    unit,
    words: remark,
    basis: remark,
    miss: v.strictObject({ low: remark, high: remark }),
  }),
  v.check(({ from, to }) => from === null || to === null || from <= to, 'must not end before it begins'),
);

const tolerance = v.strictObject({
  reading,
  aspect,
  unit,
  within: v.pipe(finiteNumber, v.gtValue(0, 'must be more than 0')),
});

const chain = v.strictObject({
  name,
  links: v.pipe(
    v.array(v.strictObject({ reading, aspect, view, checkpoint, miss: v.picklist(LINK_MISSES), words: remark })),
    v.minLength(1, 'must have a link'),
    v.maxLength(MOST_LINKS, `must have at most ${String(MOST_LINKS)} links`),
  ),
  leadsTo: remark,
  basis: remark,
});

const toleranceKey = ({ reading: id, aspect: of, unit: per }: Pattern['tolerances'][number]): string =>
  [id, of, per].join(' ');

const entries = {
  name,
  about: remark,
  wanted: atMost(wantedRange),
  tolerances: v.pipe(
    atMost(tolerance),
    v.check(
      (list) => new Set(list.map(toleranceKey)).size === list.length,
      'must have one entry for a reading, aspect and unit',
    ),
  ),
  chains: atMost(chain),
};

export const pattern: v.GenericSchema<unknown, Pattern> = v.strictObject(entries);

const patternFile = v.strictObject({
  // So that editors find the description of the format; it carries nothing.
  $schema: v.exactOptional(v.string('must be text')),
  format: v.literal('baybook-pattern'),
  version: v.literal(PATTERN_FILE_VERSION),
  ...entries,
});

const versioned = v.object({ format: v.literal('baybook-pattern'), version: countFromOne });

/**
 * Reads a pattern file's content. Unknown fields are refused: a misspelt one would otherwise be lost without a word.
 *
 * @throws AppError `pattern-file-newer` for a version above ours, `pattern-file-invalid` naming the first field that is
 *   wrong and its rule.
 */
export function parsePatternFile(content: unknown): Pattern {
  // A newer file may hold anything, so its version is looked at before the rest.
  const head = v.safeParse(versioned, content);
  if (head.success && head.output.version > PATTERN_FILE_VERSION)
    throw new AppError(
      'pattern-file-newer',
      `This pattern has version ${String(head.output.version)}; this Baybook reads up to version ` +
        `${String(PATTERN_FILE_VERSION)}. Update Baybook to open it.`,
      { detail: { version: head.output.version } },
    );
  const result = v.safeParse(patternFile, content, { abortEarly: true });
  if (!result.success)
    throw new AppError(
      'pattern-file-invalid',
      `This is not a pattern file: ${firstTrouble(result.issues, 'the content')}.`,
    );
  const { name: called, about, wanted, tolerances, chains } = result.output;
  return { name: called, about, wanted, tolerances, chains };
}

/** A pattern as it stands in a file, and in the book. */
export function patternFileOf({ name: called, about, wanted, tolerances, chains }: Pattern): PatternFile {
  return {
    format: 'baybook-pattern',
    version: PATTERN_FILE_VERSION,
    ...{ name: called, about, wanted, tolerances, chains },
  };
}
