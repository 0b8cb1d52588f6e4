import * as v from 'valibot';
import {
  TALK_LIMITS,
  type TalkClosing,
  type TalkEdit,
  type TalkEvent,
  type TalkPiece,
  type TalkTake,
} from '../model/talk.ts';
import { frameRef } from './frames.ts';
import { bodyPoint, picturePoint, placedPoint, shape } from './marks.ts';
import { readingKey } from './reading-key.ts';
import { countFromZero, finiteNumber, identifier, positive, view } from './scalars.ts';

/** The parts of a talk-through, as they come from a file or from the window. */

const time = v.pipe(
  countFromZero,
  v.maxValue(TALK_LIMITS.takeLength, 'must be at most four hours'),
  v.description('Milliseconds since the take began, whole.'),
);
const pane = v.pipe(
  countFromZero,
  v.maxValue(1, 'must be 0 or 1'),
  v.description('Which picture: 0 the left or upper, 1 the other.'),
);
const which = v.pipe(v.picklist(['then', 'now']), v.description('The earlier or the later swing.'));
const part = v.pipe(
  v.nullable(
    v.strictObject({
      x: v.pipe(finiteNumber, v.description('Left edge, pixels.')),
      y: v.pipe(finiteNumber, v.description('Upper edge, pixels.')),
      width: v.pipe(positive, v.description('Pixels.')),
      height: v.pipe(positive, v.description('Pixels.')),
    }),
  ),
  v.description('The part of the picture that is looked at, in picture coordinates; null: all of it.'),
);
const isPlain = (text: string): boolean =>
  ![...text].some((character) => {
    const code = character.codePointAt(0) ?? 0;
    return code < 32 || code === 127;
  });
/** One line; may be empty. */
export const talkText = v.pipe(
  v.string('must be text'),
  v.check((text) => [...text].length <= TALK_LIMITS.text, `must have at most ${String(TALK_LIMITS.text)} characters`),
  v.check(isPlain, 'must be one line of plain text'),
  v.metadata({ maxLength: TALK_LIMITS.text, pattern: '^[^\\u0000-\\u001f\\u007f]*$' }),
  v.description('One line of at most 400 characters.'),
);

export const talkPane = v.pipe(
  v.strictObject({ which, view, frame: frameRef, part }),
  v.description('One picture on the screen.'),
);

const event = {
  show: v.strictObject({
    at: time,
    kind: v.literal('show'),
    panes: v.pipe(
      v.array(talkPane),
      v.minLength(1, 'must hold a picture'),
      v.maxLength(2, 'must hold at most two pictures'),
      v.description('The pictures on the screen from now on, from the left or the top.'),
    ),
  }),
  frame: v.strictObject({ at: time, kind: v.literal('frame'), pane, frame: frameRef }),
  zoom: v.strictObject({ at: time, kind: v.literal('zoom'), pane, part }),
  draw: v.strictObject({ at: time, kind: v.literal('draw'), which, view, frame: frameRef, shape }),
  erase: v.strictObject({ at: time, kind: v.literal('erase'), shape: identifier }),
  point: v.strictObject({
    ...{ at: time, kind: v.literal('point'), which, view, frame: frameRef, point: bodyPoint },
    place: v.pipe(
      v.nullable(placedPoint),
      v.description('Where it is from now on; null: it is gone. Since version 2.'),
    ),
  }),
  marks: v.strictObject({
    at: time,
    kind: v.literal('marks'),
    shown: v.pipe(v.boolean('must be true or false'), v.description("Whether the swing's own marks are shown.")),
    readings: v.pipe(v.array(readingKey), v.description('Readings that stand on the pictures of their frames.')),
  }),
  pointer: v.strictObject({
    at: time,
    kind: v.literal('pointer'),
    place: v.pipe(
      v.nullable(v.strictObject({ pane, ...picturePoint.pipe[0].entries })),
      v.description('Where the pointer is, in coordinates of that picture; null: nowhere.'),
    ),
  }),
  caption: v.strictObject({ at: time, kind: v.literal('caption'), text: talkText }),
  chapter: v.strictObject({ at: time, kind: v.literal('chapter'), title: talkText }),
} satisfies Readonly<Record<TalkEvent['kind'], unknown>>;

export const talkEvent: v.GenericSchema<unknown, TalkEvent> = v.pipe(
  v.variant('kind', Object.values(event)),
  v.description(
    'What happened. show: other pictures. frame, zoom: of one picture. draw: a shape is there from now on, or has changed. ' +
      'erase: it is gone. point: the same of a body point. marks: what else is shown. pointer: where it is. caption: words until the next ones, empty: none. ' +
      'chapter: a finding begins.',
  ),
);

const isOrdered = (events: readonly TalkEvent[]): boolean =>
  events.every(({ at }, index) => at >= (events[index - 1]?.at ?? 0));
const beginsWithPictures = ([first]: readonly TalkEvent[]): boolean => first?.kind === 'show' && first.at === 0;

export const talkEvents: v.GenericSchema<unknown, TalkEvent[]> = v.pipe(
  v.array(talkEvent),
  v.maxLength(TALK_LIMITS.events, `must hold at most ${String(TALK_LIMITS.events)} events`),
  v.check((events) => beginsWithPictures(events), 'must begin with "show" at 0'),
  v.check((events) => isOrdered(events), 'must be in the order of time'),
  v.metadata({
    minItems: 1,
    // Beside the list's own rule, not in its place.
    allOf: [{ prefixItems: [{ properties: { at: { const: 0 }, kind: { const: 'show' } } }] }],
  }),
  v.description('What happened, in the order of time (which no schema can say); the first shows the pictures.'),
);

export const talkTake: v.GenericSchema<unknown, TalkTake> = v.pipe(
  v.strictObject({
    length: v.pipe(time, v.minValue(1, 'must be 1 or more'), v.description('Milliseconds that it takes, whole.')),
    sound: v.pipe(
      v.nullable(
        v.strictObject({
          file: v.pipe(
            v.string('must be text'),
            v.nonEmpty('must not be empty'),
            v.check((path) => !path.includes('\0'), 'must be a path'),
            v.metadata({ pattern: '^[^\\u0000]*$' }),
            v.description(
              'Path of a WAV file: relative to the folder of this file (with / between its parts), or absolute.',
            ),
          ),
          start: v.pipe(
            time,
            v.description('Which millisecond of the sound file goes with the beginning of the take.'),
          ),
        }),
      ),
      v.description('What was said; null: captions only.'),
    ),
    events: talkEvents,
  }),
  v.description('One recording.'),
);

const piece = v.pipe(
  v.strictObject({
    take: v.pipe(countFromZero, v.description('Counts the takes from 0.')),
    from: time,
    to: time,
  }),
  v.check(({ from, to }) => from < to, 'must end after it begins'),
  v.description('A part of a take.'),
);
export const talkPieces: v.GenericSchema<unknown, TalkPiece[]> = v.pipe(
  v.array(piece),
  v.minLength(1, 'must hold a piece'),
  v.maxLength(TALK_LIMITS.pieces, `must hold at most ${String(TALK_LIMITS.pieces)} pieces`),
  v.description('What is played, one after the other. Takes and parts of them that stand here nowhere were cut.'),
);

const fullText = v.pipe(talkText, v.minLength(1, 'must not be empty'));
export const talkClosing: v.GenericSchema<unknown, TalkClosing> = v.pipe(
  v.strictObject({
    thoughts: v.pipe(
      v.array(fullText),
      v.maxLength(TALK_LIMITS.thoughts, 'must hold at most three'),
      v.description('Key thoughts, at most three.'),
    ),
    drill: v.pipe(
      v.nullable(
        v.strictObject({
          title: v.pipe(fullText, v.description('What it is called.')),
          steps: v.pipe(
            v.array(fullText),
            v.maxLength(TALK_LIMITS.steps, 'must hold at most twelve'),
            v.description('What is done, in order.'),
          ),
        }),
      ),
      v.description('One drill, or null.'),
    ),
  }),
  v.description('What the last picture says. The cautions are always added.'),
);

/** Every piece lies within the take that it names. */
export function piecesFit(talk: {
  readonly takes: readonly TalkTake[];
  readonly pieces: readonly TalkPiece[];
}): boolean {
  return talk.pieces.every(({ take, to }) => to <= (talk.takes[take]?.length ?? -1));
}

const span = v.pipe(
  v.strictObject({ from: time, to: time }),
  v.check(({ from, to }) => from < to, 'must end after it begins'),
);

/** What is put right in a talk-through; within the book, never in files of others. */
export const talkEdit: v.GenericSchema<unknown, TalkEdit> = v.variant('kind', [
  v.strictObject({ kind: v.literal('retake'), from: time, take: countFromZero }),
  v.strictObject({
    kind: v.literal('cut'),
    spans: v.pipe(v.array(span), v.minLength(1, 'must hold a part'), v.maxLength(TALK_LIMITS.pieces)),
  }),
  v.strictObject({ kind: v.literal('move-drawing'), shape }),
  v.strictObject({ kind: v.literal('remove-drawing'), shape: identifier }),
  v.strictObject({ kind: v.literal('swap-frame'), at: time, pane, frame: frameRef }),
  v.strictObject({ kind: v.literal('caption'), at: time, text: talkText }),
  v.strictObject({ kind: v.literal('chapter'), at: time, title: talkText }),
  v.strictObject({ kind: v.literal('closing'), closing: talkClosing }),
]);

export const talkEdits: v.GenericSchema<unknown, TalkEdit[]> = v.array(talkEdit);
