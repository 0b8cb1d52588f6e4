import { createCanvas } from '@napi-rs/canvas';
import { describe, expect, it, test } from 'vitest';
import type { FrameMarks, Shape } from '../../../core/model/mark.ts';
import type { Box } from '../../../core/painting/box.ts';
import type { PlacedItem } from '../../../core/painting/draw-item.ts';
import { drawListOf } from '../../../core/painting/draw-list.ts';
import { paint } from '../../../core/painting/paint.ts';
import { visiblePlace } from '../../../core/painting/visible-place.ts';
import { registerFonts } from '../../../core/sheet/fonts.ts';
import { recordingContext } from '../../support/recording-context.ts';
import { seeded } from '../../support/seeded.ts';

const FRAME = { index: 0, pts: 0 };
const PLUMB: Shape = {
  ...{ id: 'plumb', kind: 'line', role: 'plumb', lengthMm: null },
  ...{ a: { x: 40, y: 100 }, b: { x: 40, y: 700 } },
};
const BOX: Shape = { id: 'box', kind: 'box', x: 300, y: 200, width: 200, height: 200, role: null };
const CIRCLE: Shape = { id: 'circle', kind: 'circle', centre: { x: 500, y: 500 }, radius: 150 };

function textsShown(shapes: readonly Shape[], visible: Box, scale = 1): readonly string[] {
  const marks: FrameMarks = { frame: FRAME, points: { tailbone: { x: 420, y: 420, hidden: false } }, shapes };
  const labels = { pointNames: true, shapes: Object.fromEntries(shapes.map(({ id }) => [id, id])) };
  const { ctx, calls } = recordingContext();
  paint(ctx, drawListOf(marks, { look: 'plain', width: 1280, height: 800, labels }), { scale, visible });
  return calls.flatMap((call) => (call.startsWith('fillText ') ? [call.split(' ')[1] ?? ''] : []));
}

describe('a text stands only where something shows of what it names', () => {
  it('on a crop that leaves the plumb out, it is not there', () => {
    expect(textsShown([PLUMB], { x: 200, y: 0, width: 600, height: 800 })).toEqual(['Tailbone']);
    expect(textsShown([PLUMB], { x: 0, y: 0, width: 600, height: 800 })).toEqual(['plumb', 'Tailbone']);
  });

  it('goes with its point and with every kind of shape', () => {
    const far = { x: 1000, y: 0, width: 200, height: 100 };
    expect(textsShown([PLUMB, BOX, CIRCLE], far)).toEqual([]);
    // Inside of box and circle none of their lines shows.
    expect(textsShown([BOX], { x: 320, y: 220, width: 160, height: 160 })).toEqual([]);
    expect(textsShown([CIRCLE], { x: 480, y: 480, width: 40, height: 40 })).toEqual([]);
  });

  it('moves along its line to the part that shows', () => {
    const line: PlacedItem = {
      ...{ kind: 'segment', a: { x: 40, y: 100 }, b: { x: 40, y: 700 } },
      ...{ look: 'plain', weight: 'line', ends: 'plain' },
    };
    const middle = { x: 40, y: 400 };
    expect(visiblePlace(middle, [line], { x: 0, y: 0, width: 100, height: 1000 })).toEqual(middle);
    expect(visiblePlace(middle, [line], { x: 0, y: 0, width: 100, height: 300 })).toEqual({ x: 40, y: 200 });
    expect(visiblePlace(middle, [line], { x: 0, y: 600, width: 100, height: 300 })).toEqual({ x: 40, y: 650 });
    expect(visiblePlace(middle, [line], { x: 50, y: 0, width: 100, height: 1000 })).toBeNull();
    // The edge of the crop belongs to it, and a line of no length is a place.
    expect(visiblePlace(middle, [line], { x: 40, y: 700, width: 100, height: 50 })).toEqual({ x: 40, y: 700 });
    const dot: PlacedItem = { ...line, a: { x: 5, y: 5 }, b: { x: 5, y: 5 } };
    expect(visiblePlace(middle, [dot], { x: 0, y: 0, width: 10, height: 10 })).toEqual({ x: 5, y: 5 });
  });
});

/** What is painted is the truth here: where a text is set, pixels of its line lie in the same picture. */
test('for shapes and crops of all kinds a text is there if, and only if, pixels of its shape are', () => {
  registerFonts();
  const random = seeded(31);
  const side = 120;
  let [named, bare] = [0, 0];
  for (let round = 0; round < 400; round += 1) {
    const at = () => ({ x: Math.round(random() * 800), y: Math.round(random() * 800) });
    const shapes: readonly Shape[] = [
      { id: 's', kind: 'line', a: at(), b: at(), role: null, lengthMm: null },
      { id: 's', kind: 'angle', vertex: at(), a: at(), b: at() },
      { id: 's', kind: 'box', ...at(), width: 30 + random() * 300, height: 30 + random() * 300, role: null },
      { id: 's', kind: 'circle', centre: at(), radius: 20 + random() * 200 },
      { id: 's', kind: 'free', places: [at(), at(), at()] },
    ];
    const shape = shapes[round % shapes.length];
    if (shape === undefined) throw new Error('there are five kinds');
    const size = 20 + random() * 600;
    const corner = at();
    const visible = { ...corner, width: size, height: size };
    const scale = side / size;
    const draw = (label: string): Buffer => {
      const ctx = createCanvas(side, side).getContext('2d');
      ctx.setTransform(scale, 0, 0, scale, -visible.x * scale, -visible.y * scale);
      const labels = { shapes: { s: label } };
      const items = drawListOf(
        { frame: FRAME, points: {}, shapes: [shape] },
        { look: 'plain', width: 800, height: 800, labels },
      );
      paint(ctx, items, { scale, visible, unit: 1, textSize: 13 });
      return Buffer.from(ctx.getImageData(0, 0, side, side).data.buffer);
    };
    const plain = draw('');
    const isNamed = !plain.equals(draw('name'));
    const isDrawn = plain.some((value) => value > 0);
    if (isNamed) expect(isDrawn, `round ${round}: ${shape.kind}`).toBe(true);
    // The outer pixels of a stroke may show where its middle does not.
    const isBeyondEdge = !plain.some((value, byte) => byte % 4 === 0 && value > 200);
    if (!isNamed && isDrawn) expect(isBeyondEdge, `round ${round}: ${shape.kind}`).toBe(true);
    if (isNamed) named += 1;
    else bare += 1;
  }
  expect(named).toBeGreaterThan(100);
  expect(bare).toBeGreaterThan(30);
});
