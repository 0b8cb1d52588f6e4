import * as v from 'valibot';
import { AppError } from '../model/errors.ts';
import { LINK_MISSES, GOALS_FILE_VERSION } from '../model/goals.ts';
import type { Goals, GoalsFile } from '../model/goals.ts';
import { UNITS } from '../model/reading.ts';
import { checkpoint } from './frames.ts';
import { aspect, readingId } from './reading-key.ts';
import { countFromOne, finiteNumber, name, positive, view } from './scalars.ts';
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
  v.metadata({ maxLength: LONGEST_REMARK }),
);
export const unit = v.pipe(
  v.picklist(UNITS),
  v.description(
    'deg: degrees. cm: centimetres, only with a known length. %: per cent of that length at address. club lengths: of the shaft ' +
      'as it is seen at address. ratio: a pure number. s: seconds. m/s: metres a second. px and s on screen can be named, ' +
      'but nothing is ever held against them on another day.',
  ),
);
const limit = v.pipe(
  v.nullable(finiteNumber),
  v.description('In the unit of the entry, inclusive; null for no limit on that side.'),
);
const basis = v.pipe(remark, v.description('Where it comes from.'));

/** Each once, in whichever case. */
const differ = (names: readonly string[]): boolean =>
  new Set(names.map((each) => each.trim().toLowerCase())).size === names.length;
const onceEach = <Entry extends v.GenericSchema<unknown, string>>(entry: Entry) =>
  v.pipe(
    v.array(entry),
    v.check((names) => differ(names), 'must name each once'),
    v.metadata({ uniqueItems: true }),
  );
const atMost = <Entry extends v.GenericSchema>(entry: Entry) =>
  v.pipe(v.array(entry), v.maxLength(LONGEST_LIST, `must have at most ${String(LONGEST_LIST)} entries`));

const miss = v.pipe(
  v.strictObject({
    low: v.pipe(remark, v.description('For a reading below from.')),
    high: v.pipe(remark, v.description('For a reading above to.')),
  }),
  v.description('What a miss does to the strike.'),
);
const wantedRange = v.pipe(
  v.strictObject({
    reading: v.pipe(v.nullable(readingId), v.description('Which reading; null where none measures it yet.')),
    aspect,
    views: v.pipe(onceEach(view), v.description('Views it holds in; empty for every view the reading is made in.')),
    checkpoints: v.pipe(
      onceEach(checkpoint),
      v.description('Checkpoints it holds at; empty for wherever the reading is made.'),
    ),
    clubs: v.pipe(
      onceEach(name),
      v.description('Clubs it holds for, by the name a lesson has, in whichever case; empty for every club.'),
    ),
    from: limit,
    to: limit,
    unit,
    words: v.pipe(remark, v.description('What is wanted, in words. Where both limits are null, these words are all.')),
    basis,
    miss,
  }),
  v.check(({ from, to }) => from === null || to === null || from <= to, 'must not end before it begins'),
  v.description('Where a reading is wanted to lie. A limit of 0 holds in every unit of the reading.'),
);

const tolerance = v.strictObject({
  reading: readingId,
  aspect,
  unit,
  within: v.pipe(
    positive,
    v.description('In the unit; a difference smaller than this, with all of its ±, counts as none.'),
  ),
});

export const link = v.pipe(
  v.strictObject({
    reading: readingId,
    aspect,
    view,
    checkpoint,
    miss: v.pipe(
      v.picklist(LINK_MISSES),
      v.description(
        'Which side of the reading is the miss. below-range, above-range: beyond that limit of its wanted range. minus, plus: ' +
          'its sign; of a ratio, below or above 1. moved-down, moved-up: since then it moved, to a smaller or larger number.',
      ),
    ),
    words: v.pipe(remark, v.description('What the miss is.')),
  }),
  v.description('One reading of a chain.'),
);
const chain = v.strictObject({
  name: v.pipe(name, v.description('What the chain is called.')),
  links: v.pipe(
    v.array(link),
    v.minLength(1, 'must have a link'),
    v.maxLength(MOST_LINKS, `must have at most ${String(MOST_LINKS)} links`),
    v.description('The cause before what it brings about.'),
  ),
  leadsTo: v.pipe(remark, v.description('What comes of it, as a rule at the strike. Said, not measured.')),
  basis,
});

const toleranceKey = ({ reading: id, aspect: of, unit: per }: Goals['tolerances'][number]): string =>
  [id, of, per].join(' ');

const entries = {
  name: v.pipe(name, v.description('What the goals are called.')),
  about: v.pipe(remark, v.description('What this list is and is not, for people.')),
  wanted: v.pipe(
    atMost(wantedRange),
    v.description(
      'Where readings are wanted to lie. Of several that hold for a reading, one that names the club comes before one for ' +
        'every club, then one that names the checkpoint, then one that names the view, then the first listed.',
    ),
  ),
  tolerances: v.pipe(
    atMost(tolerance),
    v.check(
      (list) => new Set(list.map(toleranceKey)).size === list.length,
      'must have one entry for a reading, aspect and unit',
    ),
    v.description('Differences between then and now that count as none.'),
  ),
  chains: v.pipe(atMost(chain), v.description("Readings that hang together in the coach's eyes.")),
};

export const goals: v.GenericSchema<unknown, Goals> = v.strictObject(entries);

export const goalsFile = v.pipe(
  v.strictObject({
    // So that editors find the description of the format; it carries nothing.
    $schema: v.exactOptional(v.pipe(v.string('must be text'), v.description('Optional; for editors.'))),
    format: v.pipe(
      v.literal('baybook-pattern'),
      v.description('Says that this file holds goals. The word is the one it had first.'),
    ),
    version: v.pipe(
      v.literal(GOALS_FILE_VERSION),
      v.description('Version of the format. A program refuses a version above the ones it knows.'),
    ),
    ...entries,
  }),
  v.title(`Baybook goals, version ${String(GOALS_FILE_VERSION)}`),
  v.description(
    "A coach's own list of what is wanted of readings, with what a miss does to the strike, of tolerances, and of chains of " +
      "cause and effect. All texts are the coach's own. Beyond what a schema can say: from is not above to, clubs differ in " +
      'more than their case and the spaces at their ends, and there is one tolerance for a reading, aspect and unit.',
  ),
);

const versioned = v.object({ format: v.literal('baybook-pattern'), version: countFromOne });

/**
 * Reads a goals file's content. Unknown fields are refused: a misspelt one would otherwise be lost without a word.
 *
 * @throws AppError `goals-file-newer` for a version above ours, `goals-file-invalid` naming the first field that is
 *   wrong and its rule.
 */
export function parseGoalsFile(content: unknown): Goals {
  // A newer file may hold anything, so its version is looked at before the rest.
  const head = v.safeParse(versioned, content);
  if (head.success && head.output.version > GOALS_FILE_VERSION)
    throw new AppError(
      'goals-file-newer',
      `This goals file has version ${String(head.output.version)}; this Baybook reads up to version ` +
        `${String(GOALS_FILE_VERSION)}. Update Baybook to open it.`,
      { detail: { version: head.output.version } },
    );
  const result = v.safeParse(goalsFile, content, { abortEarly: true });
  if (!result.success)
    throw new AppError(
      'goals-file-invalid',
      `This is not a goals file: ${firstTrouble(result.issues, 'the content')}.`,
    );
  const { name: called, about, wanted, tolerances, chains } = result.output;
  return { name: called, about, wanted, tolerances, chains };
}

/** Goals as they stand in a file, and in the book. */
export function goalsFileOf({ name: called, about, wanted, tolerances, chains }: Goals): GoalsFile {
  return {
    format: 'baybook-pattern',
    version: GOALS_FILE_VERSION,
    ...{ name: called, about, wanted, tolerances, chains },
  };
}
