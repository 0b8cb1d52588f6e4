import * as v from 'valibot';
import { BODY_POINTS } from '../model/body-points.ts';
import type { FrameMarks, ProposedPlace, ShapeKind, ShapeLook } from '../model/mark.ts';
import { GROUND_LAYOUTS, MOST_TEXT, PATH_SUBJECTS, PLANES, SHAPE_COLOURS, SHAPE_THICKNESSES } from '../model/mark.ts';
import { byName } from './by-name.ts';
import { frameRef, timeStamp } from './frames.ts';
import { instant } from './instant.ts';
import { countFromOne, finiteNumber, identifier, length, positive } from './scalars.ts';

const proposedGuess = v.exactOptional(
  v.pipe(
    positive,
    v.description(
      "The place was accepted as it was proposed: standard deviation in pixels from the coach's own. Left out: placed by hand. Since version 6.",
    ),
  ),
);

const place = {
  x: v.pipe(finiteNumber, v.description('Pixels from the left edge, to the right.')),
  y: v.pipe(finiteNumber, v.description('Pixels from the upper edge, down.')),
};
export const picturePoint = v.pipe(v.strictObject(place), v.description('A place in picture coordinates.'));
export const proposedPlace: v.GenericSchema<unknown, ProposedPlace> = v.pipe(
  v.strictObject({
    ...place,
    model: v.pipe(v.strictObject(place), v.description('Where the pose model saw it.')),
    assumed: v.pipe(
      positive,
      v.description('How far such a place is assumed to lie off, standard deviation in pixels.'),
    ),
    size: v.pipe(positive, v.description('Side of the square in which the body was seen, pixels.')),
    learnt: v.exactOptional(
      v.pipe(countFromOne, v.description('From so many corrections its error was learnt; left out: assumed.')),
    ),
    at: v.pipe(instant, v.description('When it was proposed.')),
  }),
  v.description('Where the point had been proposed. Since version 7.'),
);
export const placedPoint = v.pipe(
  v.strictObject({
    ...place,
    hidden: v.pipe(
      v.boolean('must be true or false'),
      v.description('true: the place was guessed because something covers it.'),
    ),
    guess: proposedGuess,
    proposed: v.exactOptional(proposedPlace),
  }),
  v.description('A body point as the coach placed it.'),
);

/** What every shape has. */
const carried = v.pipe(
  v.literal(true, 'must be true or left out'),
  v.description('true: shown on all frames of the clip. Left out: on its own frame only.'),
);
const look = {
  colour: v.exactOptional(
    v.pipe(v.picklist(SHAPE_COLOURS), v.description('Its colour; left out: that of its swing. Since version 5.')),
  ),
  thickness: v.exactOptional(
    v.pipe(v.picklist(SHAPE_THICKNESSES), v.description('Of its lines; left out: middle. Since version 5.')),
  ),
  unlabelled: v.exactOptional(
    v.pipe(
      v.literal(true, 'must be true or left out'),
      v.description('true: its number does not stand beside it. Since version 5.'),
    ),
  ),
};
/** How a shape looks, alone. */
export const shapeLook: v.GenericSchema<unknown, ShapeLook> = v.strictObject(look);

const base = { id: identifier, carried: v.exactOptional(carried), ...look };
const pixels = v.pipe(length, v.description('Pixels.'));

const line = v.pipe(
  v.strictObject({
    ...base,
    kind: v.literal('line'),
    a: picturePoint,
    b: picturePoint,
    role: v.pipe(
      v.nullable(v.picklist(['plumb', 'level', 'yardstick'])),
      v.description(
        'plumb: the true vertical, from a vertical edge. level: the true horizontal, from a level edge. ' +
          'known length: a known real length. null: just a line.',
      ),
    ),
    lengthMm: v.pipe(
      v.nullable(positive),
      v.description('Real length in millimetres, above 0, of a known length; null for every other line.'),
    ),
    lengthUMm: v.exactOptional(
      v.pipe(
        positive,
        v.description(
          'Standard uncertainty of that length in millimetres, above 0; left out where it is known well enough. ' +
            'Known lengths only. Since version 3.',
        ),
      ),
    ),
    plane: v.exactOptional(
      v.pipe(
        v.picklist(PLANES),
        v.description(
          "Where a known length lies: as far from the camera as the player, or as the ball; the player's where left out. " +
            'Known lengths only. Since version 3.',
        ),
      ),
    ),
  }),
  v.check(
    (shape) => (shape.role === 'yardstick') === (shape.lengthMm !== null),
    'must have a lengthMm when its role is known length, and only then',
  ),
  v.check(
    (shape) => shape.role === 'yardstick' || (shape.lengthUMm === undefined && shape.plane === undefined),
    'must have a lengthUMm and a plane only when its role is known length',
  ),
  v.metadata({
    if: { required: ['role'], properties: { role: { const: 'yardstick' } } },
    then: { properties: { lengthMm: { type: 'number' } } },
    else: { properties: { lengthMm: { type: 'null' }, lengthUMm: false, plane: false } },
  }),
  v.description('A straight line from a to b.'),
);
const angle = v.pipe(
  v.strictObject({ ...base, kind: v.literal('angle'), vertex: picturePoint, a: picturePoint, b: picturePoint }),
  v.description('The angle at vertex between the arms to a and b.'),
);
const box = v.pipe(
  v.strictObject({
    ...base,
    kind: v.literal('box'),
    x: v.pipe(finiteNumber, v.description('Left edge, pixels.')),
    y: v.pipe(finiteNumber, v.description('Upper edge, pixels.')),
    width: pixels,
    height: pixels,
    role: v.pipe(
      v.nullable(v.picklist(['head-box', 'head'])),
      v.description(
        'head-box: drawn round the head at address. head: drawn close round head and cap, since version 4. null: just a box.',
      ),
    ),
  }),
  v.description('An upright box.'),
);
const circle = v.pipe(
  v.strictObject({
    ...base,
    kind: v.literal('circle'),
    centre: picturePoint,
    radius: pixels,
    rim: v.exactOptional(
      v.pipe(
        v.array(picturePoint),
        v.minLength(3, 'must have three places or more'),
        v.description('Places on the edge that the circle was fitted to; left out when it was drawn from its middle.'),
      ),
    ),
    role: v.exactOptional(
      v.pipe(
        v.literal('ball'),
        v.description('ball: the edge of the ball at rest. Left out: just a circle. Since version 3.'),
      ),
    ),
  }),
  v.description('A circle.'),
);
const free = v.pipe(
  v.strictObject({
    ...base,
    kind: v.literal('free'),
    places: v.pipe(
      v.array(picturePoint),
      v.minLength(2, 'must have two places or more'),
      v.description('Where the line goes, in order.'),
    ),
  }),
  v.description('A line drawn by hand; it measures nothing.'),
);
const arrow = v.pipe(
  v.strictObject({ ...base, kind: v.literal('arrow'), a: picturePoint, b: picturePoint }),
  v.description('An arrow from a to b; it measures nothing. Since version 5.'),
);
const text = v.pipe(
  v.strictObject({
    ...base,
    kind: v.literal('text'),
    at: picturePoint,
    words: v.pipe(
      v.string('must be text'),
      v.check((words) => words.trim() !== '', 'must not be empty'),
      v.maxLength(MOST_TEXT, 'is too long'),
      v.check((words) => !/\p{Cc}/u.test(words), 'must be one line'),
      v.description('A few words, one line.'),
    ),
  }),
  v.description('Words on the picture, with their middle at a place. Since version 5.'),
);
const path = v.pipe(
  v.strictObject({
    ...base,
    kind: v.literal('path'),
    subject: v.pipe(
      v.picklist(PATH_SUBJECTS),
      v.description('What is followed; the head and the ball since version 6.'),
    ),
    places: v.pipe(
      v.array(v.strictObject({ ...place, pts: timeStamp, guess: proposedGuess })),
      v.minLength(1, 'must have a place'),
      v.check(
        (places) => places.every(({ pts }, at) => at === 0 || pts > (places[at - 1]?.pts ?? Infinity)),
        'must be in the order of their frames, one a frame',
      ),
      v.description('Where it was, in the order of the frames, one a frame (which no schema can say).'),
    ),
  }),
  v.description('One thing followed over frames.'),
);
const groundMark = v.pipe(
  v.strictObject({
    ...place,
    target: v.pipe(finiteNumber, v.description("Millimetres toward the target, from an origin of the coach's choice.")),
    ball: v.pipe(finiteNumber, v.description('Millimetres from the player toward the ball, from the same origin.')),
  }),
  v.description('A place of the picture whose place on the flat ground is known.'),
);
const ground = v.pipe(
  v.strictObject({
    ...base,
    kind: v.literal('ground'),
    layout: v.pipe(
      v.picklist(GROUND_LAYOUTS),
      v.description('How they were laid: corners of a mat, ends of two crossed sticks, or as the coach measured them.'),
    ),
    places: v.pipe(
      v.array(groundMark),
      v.minLength(4, 'must have four places or more'),
      v.description('Four or more.'),
    ),
  }),
  v.description('Ground marks: what turns places on the ground into true lengths and angles. Since version 3.'),
);
const edge = v.pipe(
  v.strictObject({
    ...base,
    kind: v.literal('edge'),
    places: v.pipe(
      v.array(picturePoint),
      v.minLength(3, 'must have three places or more'),
      v.description('Three or more, in order along the edge.'),
    ),
  }),
  v.description('Places along one edge that is straight in reality. Since version 3.'),
);

/** One schema for every kind. */
const SHAPES = { line, angle, box, circle, free, arrow, text, path, ground, edge } satisfies Readonly<
  Record<ShapeKind, unknown>
>;
export const shape = v.variant('kind', Object.values(SHAPES));
export const bodyPoint = v.picklist(BODY_POINTS);

/** Everything on one frame. Each shape id may stand once. */
export const frameMarks: v.GenericSchema<unknown, FrameMarks> = v.pipe(
  v.strictObject({
    frame: frameRef,
    points: v.pipe(
      byName(BODY_POINTS, placedPoint),
      v.description('Placed body points, by name. Lead is the side nearer the target, trail the farther one.'),
    ),
    shapes: v.pipe(
      v.array(shape),
      v.check((shapes) => new Set(shapes.map(({ id }) => id)).size === shapes.length, 'must not use one id twice'),
      v.description('Drawn shapes, in the order they are painted.'),
    ),
  }),
  v.description('Everything that is marked on one frame.'),
);
