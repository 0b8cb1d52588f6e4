import { describe, expect, test } from 'vitest';
import type { ShapeContext } from '../../../core/measure/readings/shape-number.ts';
import type { PicturePoint, Shape } from '../../../core/model/mark.ts';
import { shape as schema } from '../../../core/parse/marks.ts';
import type { DrawnByPlaces } from '../../../core/shapes/kind.ts';
import { SHAPES, SHAPE_KINDS, isKindBy, kindOf } from '../../../core/shapes/shapes.ts';
import { FIRST_WORDS } from '../../../core/shapes/text.ts';
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

  test('something is drawn, measured but for an arrow, and it says what is next for every place', () => {
    expect(kind.figures(whole).length).toBeGreaterThan(0);
    const numbers = kind.numbers(whole, BARE);
    expect(numbers.length > 0).toBe(name !== 'arrow');
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

describe('a text on the picture', () => {
  const { text } = SHAPES;
  const [at = { x: 0, y: 0 }] = PLACES;
  const whole: Shape = { kind: 'text', id: ID, at, words: 'Keep it here' };

  test('stands where the pointer was let go, and says that it is to be typed', () => {
    expect(text.stroke([{ x: 1, y: 1 }, at], ID)).toEqual({ kind: 'text', id: ID, at, words: FIRST_WORDS });
    expect(text.stroke([], ID)).toBeNull();
  });

  test('is read back from its file; one that is empty, too long or of two lines is refused', () => {
    expect(is(schema, JSON.parse(JSON.stringify(whole)))).toBe(true);
    for (const words of ['', '  ', 'a'.repeat(41), 'one\ntwo']) expect(is(schema, { ...whole, words })).toBe(false);
  });

  test('is taken and moved by its place, and goes along in a copy', () => {
    const moved = kindOf(whole).moved(whole, 'at', { x: 2, y: -3 });
    expect(moved).toEqual({ ...whole, at: { x: at.x + 2, y: at.y - 3 } });
    const copy = kindOf(whole).copied(whole, 'other', {
      isSame: false,
      place: ({ x, y }) => ({ x: x + 1, y }),
      scale: 2,
    });
    expect(copy).toEqual({ ...whole, id: 'other', at: { x: at.x + 1, y: at.y } });
  });
});

test('every kind may be given a look, which its file keeps; a colour or thickness that nobody knows is refused', () => {
  const line = { kind: 'line', id: ID, a: PLACES[0], b: PLACES[1], role: null, lengthMm: null };
  const look = { colour: 'pink', thickness: 'thick', unlabelled: true };
  expect(is(schema, { ...line, ...look })).toBe(true);
  for (const wrong of [{ colour: 'red' }, { thickness: 3 }, { unlabelled: false }])
    expect(is(schema, { ...line, ...wrong })).toBe(false);
});
