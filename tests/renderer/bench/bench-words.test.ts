import { expect, test } from 'vitest';
import { placesInWords } from '../../../renderer/bench/marks/path-words.ts';
import { pathRings, startRings } from '../../../renderer/bench/surface/rings.ts';
import { hintFor } from '../../../renderer/bench/tool-words.ts';
import type { HintScene } from '../../../renderer/bench/tool-words.ts';
import { matPlan, sticksPlan } from '../../../renderer/tools/ground-plan.ts';
import { TOOLS, idle } from '../../../renderer/tools/tool.ts';
import { BARE } from '../tools/pointer-script.ts';

const SCENE: HintScene = {
  selected: null,
  asked: 'tailbone',
  start: null,
  follows: 'clubhead',
  hasPlace: false,
  isProposed: false,
  next: null,
  plan: null,
  nudge: { coarse: 'Ctrl+arrow keys', fine: 'Ctrl+Shift+arrow keys' },
};

test('a path says on which frames it has places, and leaves out those between where it has none', () => {
  expect(placesInWords([])).toBe('No place yet.');
  expect(placesInWords([7])).toBe('1 place, on frame 7.');
  expect(placesInWords([7, 8])).toBe('2 places, on frames 7, 8.');
  expect(placesInWords([144, 145, 146])).toBe('3 places, on frames 144 to 146.');
  expect(placesInWords([1, 2, 3, 5])).toBe('4 places, on frames 1 to 3 and 5.');
  expect(placesInWords([1, 2, 3, 5, 8, 9, 10])).toBe('7 places, on frames 1 to 3, 5 and 8 to 10.');
});

test('Enter is offered only where there is a place of the frame before', () => {
  const offered = /Enter accepts the dashed ring, where it stood before\.$/;
  expect(hintFor(idle('points'), { ...SCENE, start: 'before' })).toMatch(offered);
  expect(hintFor(idle('points'), SCENE)).not.toMatch(offered);
  expect(hintFor(idle('points'), { ...SCENE, asked: null })).toBe('All body points of this view are placed.');
});

test('the keys that nudge are told with the name of what they move, be it the last one placed or one chosen again', () => {
  const nudge = { coarse: 'Ctrl+arrow keys', fine: 'Ctrl+Shift+arrow keys' };
  const selected = { kind: 'point', point: 'neck-base' } as const;
  const said = hintFor(idle('points'), { ...SCENE, nudge, selected });
  expect(said).toMatch(/^Place tailbone, .* Ctrl\+arrow keys move neck base\.$/);
});

test('the path says what is followed, and what can be done with the place that is there', () => {
  expect(hintFor(idle('path'), { ...SCENE, follows: 'hands' })).toMatch(/^Click the hands on this frame/);
  expect(hintFor(idle('path'), { ...SCENE, hasPlace: true })).toMatch(/Delete takes it away/);
});

test('the ground tool asks for a size first, and then for one place after the other by its name', () => {
  const clicked = (count: number) => ({
    tool: 'ground' as const,
    name: 'collecting' as const,
    places: Array.from({ length: count }, () => ({ x: 0, y: 0 })),
  });
  expect(hintFor(idle('ground'), SCENE)).toMatch(/^Say in the panel beside/);
  const mat = { ...SCENE, plan: matPlan({ along: 1500, across: 1200 }) };
  expect(hintFor(idle('ground'), mat)).toBe("Click the corner nearest the target, at the ball's side.");
  expect(hintFor(clicked(2), mat)).toMatch(
    /^Click the corner farthest from the target, at the player's side\. Backspace/,
  );
  expect(hintFor(clicked(3), { ...SCENE, plan: sticksPlan({ along: 1000, across: 900 }) })).toMatch(
    /^Click the end toward the player\./,
  );
  const places = [0, 400, 400, -400, 12].map((target) => ({ target, ball: -205 }));
  const measured = { ...SCENE, plan: { layout: 'measured' as const, places } };
  expect(hintFor(clicked(3), measured)).toMatch(
    /^Click place 4, 40 cm away from the target and 20\.5 cm toward the player\. Backspace/,
  );
  expect(hintFor(clicked(4), measured)).toMatch(/^Click place 5, 1\.2 cm toward the target .* Enter ends it\./);
});

test('no hint uses the words of the two compared swings', () => {
  for (const tool of TOOLS) expect(hintFor(idle(tool), SCENE)).not.toMatch(/\b(then|now)\b/i);
});

test('a start is ringed while its point is missing, the one that is asked for stronger', () => {
  const starts = { tailbone: { x: 1, y: 2 }, ball: { x: 3, y: 4 }, clubhead: { x: 5, y: 6 } };
  const marks = { ...BARE, points: { clubhead: { x: 9, y: 9, hidden: false } } };
  expect(startRings(marks, starts, 'ball')).toEqual([
    { at: { x: 1, y: 2 }, kind: 'start' },
    { at: { x: 3, y: 4 }, kind: 'next' },
  ]);
});

test('only the place of the followed path on this very frame is ringed', () => {
  const { pts } = BARE.frame;
  const here = { x: 3, y: 4, pts };
  const path = (id: string, subject: 'clubhead' | 'hands') =>
    ({ kind: 'path', id, subject, places: [{ x: 1, y: 2, pts: pts - 512 }, here] }) as const;
  const marks = { ...BARE, shapes: [path('c', 'clubhead'), path('h', 'hands')] };
  expect(pathRings(marks, 'clubhead')).toEqual([{ at: here, kind: 'selected' }]);
  expect(pathRings({ ...marks, frame: { index: 9, pts: pts + 512 } }, 'clubhead')).toEqual([]);
});
