import * as v from 'valibot';
import { BODY_POINTS } from '../model/body-points.ts';
import type { FrameMarks } from '../model/mark.ts';
import { byName } from './by-name.ts';
import { frameRef } from './frames.ts';
import { finiteNumber, identifier, length } from './scalars.ts';

export const picturePoint = v.strictObject({ x: finiteNumber, y: finiteNumber });
export const placedPoint = v.strictObject({
  x: finiteNumber,
  y: finiteNumber,
  hidden: v.boolean('must be true or false'),
});

const line = v.pipe(
  v.strictObject({
    id: identifier,
    kind: v.literal('line'),
    a: picturePoint,
    b: picturePoint,
    role: v.nullable(v.picklist(['plumb', 'yardstick'])),
    lengthMm: v.nullable(v.pipe(finiteNumber, v.gtValue(0, 'must be more than 0'))),
  }),
  v.check(
    (shape) => (shape.role === 'yardstick') === (shape.lengthMm !== null),
    'must have a lengthMm when its role is yardstick, and only then',
  ),
);
const angle = v.strictObject({
  id: identifier,
  kind: v.literal('angle'),
  vertex: picturePoint,
  a: picturePoint,
  b: picturePoint,
});
const box = v.strictObject({
  id: identifier,
  kind: v.literal('box'),
  x: finiteNumber,
  y: finiteNumber,
  width: length,
  height: length,
  role: v.nullable(v.literal('head-box')),
});
const circle = v.strictObject({ id: identifier, kind: v.literal('circle'), centre: picturePoint, radius: length });

export const shape = v.variant('kind', [line, angle, box, circle]);
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
