import { describe, expect, test } from 'vitest';
import type { ShapeContext } from '../../../core/measure/readings/shape-number.ts';
import type { PicturePoint, Shape } from '../../../core/model/mark.ts';
import { shape as schema } from '../../../core/parse/marks.ts';
import type { DrawnByPlaces } from '../../../core/shapes/kind.ts';
import { SHAPES, SHAPE_KINDS, isKindBy, kindOf } from '../../../core/shapes/shapes.ts';
import { is } from 'valibot';

const PLACES: readonly PicturePoint[] = [
  { x: 100, y: 200 },
  { x: 300, y: 220 },
  { x: 260, y: 40 },
  { x: 90, y: 20 },
];
const ID = '00000000-0000-4000-8000-000000000001';
const BARE: ShapeContext = { sigma: 2, plumb: null, scale: null };

const DRAWN = SHAPE_KINDS.flatMap((name) => (isKindBy('drawn', name) ? [name] : []));

describe.each(DRAWN)('what every kind that is drawn by places holds to: %s', (name) => {
  const drawn: DrawnByPlaces<Shape> = SHAPES[name].drawn;
  const whole = drawn.through(PLACES.slice(0, drawn.places), ID);
  if (whole === null) throw new Error(`${name} is not drawn through ${String(drawn.places)} places`);
  const kind = kindOf(whole);

  test('nothing is kept with too few places, or with all of them on one', () => {
    for (let count = 0; count < drawn.places; count += 1) expect(drawn.through(PLACES.slice(0, count), ID)).toBeNull();
    expect(
      drawn.through(
        Array.from({ length: drawn.places }, () => ({ x: 1, y: 1 })),
        ID,
      ),
    ).toBeNull();
  });

  test('its file is read back as it is', () => {
    expect(whole.kind).toBe(name);
    expect(is(schema, JSON.parse(JSON.stringify(whole)))).toBe(true);
  });

  test('each handle goes where it is moved to', () => {
    for (const { name: handle, at } of kind.handles(whole)) {
      const moved = kind.moved(whole, handle, { x: 2, y: -3 });
      expect(kind.handles(moved).find((each) => each.name === handle)?.at).toEqual({ x: at.x + 2, y: at.y - 3 });
    }
  });

  test('something is drawn and measured, and it says what is next for every place', () => {
    expect(kind.figures(whole).length).toBeGreaterThan(0);
    const numbers = kind.numbers(whole, BARE);
    expect(numbers.length).toBeGreaterThan(0);
    for (const number of numbers) expect(number.state).toBe('measured');
    expect(kind.tool.hints).toHaveLength(drawn.places);
  });

  test('a copy within its clip differs in its id alone', () => {
    const copy = kind.copied(whole, 'other', { isSame: true, place: (at) => at, scale: 1 });
    expect(copy).toEqual({ ...whole, id: 'other' });
  });

  test('no other tool has its key', () => {
    const keys = SHAPE_KINDS.map((each) => SHAPES[each].tool.key);
    expect(keys.filter((key) => key === kind.tool.key)).toHaveLength(1);
  });
});
