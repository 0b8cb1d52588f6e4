import * as v from 'valibot';
import { MOST_KEY_THOUGHTS, SKETCH_HEIGHT } from '../model/lesson-page.ts';
import type { CoachLibrary, Drill, LessonPage } from '../model/lesson-page.ts';
import { readingKey } from './reading-key.ts';
import { finiteNumber, identifier, name } from './scalars.ts';

/** Characters of one text: a paragraph or two. */
const LONGEST_TEXT = 1000;
/** Far more than a page can bear, few enough to be shown. */
const MOST_ENTRIES = 50;
const MOST_DRILLS = 500;
/** Of all strokes of a sketch: half a minute of drawing. */
const MOST_PLACES = 4000;

/** May be empty or run over lines. */
const text = v.pipe(
  v.string('must be text'),
  v.check((given) => [...given].length <= LONGEST_TEXT, `must have at most ${String(LONGEST_TEXT)} characters`),
  v.metadata({ maxLength: LONGEST_TEXT }),
);

const atMost = <Entry extends v.GenericSchema>(entry: Entry, most = MOST_ENTRIES) =>
  v.pipe(v.array(entry), v.maxLength(most, `must have at most ${String(most)} entries`));

const within = (most: number) =>
  v.pipe(finiteNumber, v.minValue(0, 'must be 0 or more'), v.maxValue(most, `must be ${String(most)} or less`));

const place = v.strictObject({
  x: v.pipe(within(1), v.description('In widths of the field, to the right.')),
  y: v.pipe(within(SKETCH_HEIGHT), v.description('In widths of the field, down.')),
});
const stroke = atMost(place, MOST_PLACES);

const drill: v.GenericSchema<unknown, Drill> = v.pipe(
  v.strictObject({
    id: identifier,
    title: v.pipe(name, v.description('What the drill is called.')),
    steps: v.pipe(atMost(text), v.description('What to do, in order.')),
    counts: v.pipe(text, v.description('How many, how often.')),
    caution: v.pipe(text, v.description('What to mind with it.')),
    sketch: v.pipe(
      atMost(stroke, MOST_PLACES),
      v.description(`Strokes in a field 1 wide and ${String(SKETCH_HEIGHT)} high, x to the right, y down.`),
    ),
  }),
  v.description("A drill, in the coach's words."),
);

export const lessonPage: v.GenericSchema<unknown, LessonPage> = v.pipe(
  v.strictObject({
    findings: v.pipe(
      atMost(v.strictObject({ reading: readingKey, words: v.pipe(text, v.description('Of the coach.')) })),
      v.description('What was found, the most important first, each with the reading that shows it.'),
    ),
    keyThoughts: v.pipe(
      v.array(text),
      v.maxLength(MOST_KEY_THOUGHTS, `must have at most ${String(MOST_KEY_THOUGHTS)} entries`),
      v.description('At most three.'),
    ),
    drills: v.pipe(atMost(drill), v.description('What to practise.')),
    filmNext: v.pipe(
      v.strictObject({
        what: v.pipe(text, v.description('Which swings.')),
        how: v.pipe(text, v.description('From where, and how many.')),
      }),
      v.description('What to film for next time, and how.'),
    ),
  }),
  v.description('What the lesson sends in words. Numbers are read from the marks, and none stands here.'),
);

export const coachLibrary: v.GenericSchema<unknown, CoachLibrary> = v.strictObject({
  drills: atMost(drill, MOST_DRILLS),
  letter: v.strictObject({ subject: text, opening: text, closing: text }),
});
