import * as v from 'valibot';
import { BODY_POINTS } from '../model/body-points.ts';
import type { FrameMarks } from '../model/mark.ts';
import { GROUND_LAYOUTS, PATH_SUBJECTS, PLANES } from '../model/mark.ts';
import { byName } from './by-name.ts';
import { frameRef } from './frames.ts';
import { finiteNumber, identifier, length, wholeNumber } from './scalars.ts';

export const picturePoint = v.strictObject({ x: finiteNumber, y: finiteNumber });
export const placedPoint = v.strictObject({
  x: finiteNumber,
  y: finiteNumber,
  hidden: v.boolean('must be true or false'),
});

/** What every shape has. */
const base = { id: identifier, carried: v.exactOptional(v.literal(true, 'must be true or left out')) };

const positive = v.pipe(finiteNumber, v.gtValue(0, 'must be more than 0'));

const line = v.pipe(
  v.strictObject({
    ...base,
    kind: v.literal('line'),
    a: picturePoint,
    b: picturePoint,
    role: v.nullable(v.picklist(['plumb', 'level', 'yardstick'])),
    lengthMm: v.nullable(positive),
    lengthUMm: v.exactOptional(positive),
    plane: v.exactOptional(v.picklist(PLANES)),
  }),
  v.check(
    (shape) => (shape.role === 'yardstick') === (shape.lengthMm !== null),
    'must have a lengthMm when its role is yardstick, and only then',
  ),
  v.check(
    (shape) => shape.role === 'yardstick' || (shape.lengthUMm === undefined && shape.plane === undefined),
    'must have a lengthUMm and a plane only when its role is yardstick',
  ),
);
const angle = v.strictObject({
  ...base,
  kind: v.literal('angle'),
  vertex: picturePoint,
  a: picturePoint,
  b: picturePoint,
});
const box = v.strictObject({
  ...base,
  kind: v.literal('box'),
  x: finiteNumber,
  y: finiteNumber,
  width: length,
  height: length,
  role: v.nullable(v.picklist(['head-box', 'head'])),
});
const circle = v.strictObject({
  ...base,
  kind: v.literal('circle'),
  centre: picturePoint,
  radius: length,
  rim: v.exactOptional(v.pipe(v.array(picturePoint), v.minLength(3, 'must have three places or more'))),
  role: v.exactOptional(v.literal('ball')),
});
const free = v.strictObject({
  ...base,
  kind: v.literal('free'),
  places: v.pipe(v.array(picturePoint), v.minLength(2, 'must have two places or more')),
});
const path = v.strictObject({
  ...base,
  kind: v.literal('path'),
  subject: v.picklist(PATH_SUBJECTS),
  places: v.pipe(
    v.array(v.strictObject({ x: finiteNumber, y: finiteNumber, pts: wholeNumber })),
    v.minLength(1, 'must have a place'),
    v.check(
      (places) => places.every(({ pts }, at) => at === 0 || pts > (places[at - 1]?.pts ?? Infinity)),
      'must be in the order of their frames, one a frame',
    ),
  ),
});
const ground = v.strictObject({
  ...base,
  kind: v.literal('ground'),
  layout: v.picklist(GROUND_LAYOUTS),
  places: v.pipe(
    v.array(v.strictObject({ x: finiteNumber, y: finiteNumber, target: finiteNumber, ball: finiteNumber })),
    v.minLength(4, 'must have four places or more'),
  ),
});
const edge = v.strictObject({
  ...base,
  kind: v.literal('edge'),
  places: v.pipe(v.array(picturePoint), v.minLength(3, 'must have three places or more')),
});

export const shape = v.variant('kind', [line, angle, box, circle, free, path, ground, edge]);
export const bodyPoint = v.picklist(BODY_POINTS);

/** Everything on one frame. Each shape id may stand once. */
export const frameMarks: v.GenericSchema<unknown, FrameMarks> = v.strictObject({
  frame: frameRef,
  points: byName(BODY_POINTS, placedPoint),
  shapes: v.pipe(
    v.array(shape),
    v.check((shapes) => new Set(shapes.map(({ id }) => id)).size === shapes.length, 'must not use one id twice'),
  ),
});
