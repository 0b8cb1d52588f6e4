import { expect, test } from 'vitest';
import { readingsMadeFrom } from '../../../../core/measure/readings/made-from.ts';
import type { ReadMark } from '../../../../core/measure/readings/made-from.ts';
import { readSwing } from '../../../../core/measure/readings/read-swing.ts';
import type { Checkpoint, View } from '../../../../core/model/words.ts';
import { ALL_SHAPES, inventedSwing } from '../invented-swing.ts';

const READINGS = readSwing(inventedSwing(ALL_SHAPES));

function names(mark: ReadMark): readonly string[] {
  return readingsMadeFrom(READINGS, mark).map(({ id, aspect, checkpoint }) =>
    aspect === 'value' ? `${id} at ${checkpoint}` : `${id} ${aspect} at ${checkpoint}`,
  );
}

function point(name: 'lead-shoulder' | 'tailbone' | 'ball', view: View, checkpoints: readonly Checkpoint[]): ReadMark {
  return { kind: 'point', point: name, view, checkpoints };
}

test('a point names the readings of its own frame and view, in the order of the list', () => {
  expect(names(point('lead-shoulder', 'down-the-line', ['top']))).toEqual([
    'shoulder-to-spine at top',
    'shoulder-line at top',
  ]);
  expect(names(point('lead-shoulder', 'face-on', ['impact']))).toEqual([
    'shoulder-line at impact',
    'club-radius at impact',
  ]);
});

test('a point of address names what leans on it at other checkpoints too', () => {
  const from = names(point('tailbone', 'down-the-line', ['address']));
  for (const expected of ['back-incline at address', 'neck-over-back at address', 'shoulder-to-spine at top'])
    expect(from).toContain(expected);
  for (const expected of ['hip-rise at impact', 'hip-rise at finish']) expect(from).toContain(expected);
  expect(from).not.toContain('back-incline at top');
});

test('a frame with two names has the readings of both, one without a name none', () => {
  const both = names(point('lead-shoulder', 'down-the-line', ['lead-arm-level', 'top']));
  expect(both).toContain('shoulder-line at lead-arm-level');
  expect(both).toContain('shoulder-line at top');
  expect(names(point('lead-shoulder', 'down-the-line', []))).toEqual([]);
});

test('a point that nothing is read from names nothing', () => {
  expect(names(point('ball', 'down-the-line', ['address']))).toEqual([]);
});

test('a shape names all that lean on it: the box its own reading, the known length all centimetres', () => {
  const fromBox = names({ kind: 'shape', id: 'box-1' });
  expect(new Set(fromBox.map((name) => name.split(' ')[0]))).toEqual(new Set(['head-box', 'head-centre-box']));
  const inCm = READINGS.filter((reading) => reading.state === 'measured' && reading.unit === 'cm');
  expect(readingsMadeFrom(READINGS, { kind: 'shape', id: 'yardstick-1' })).toEqual(inCm);
  expect(inCm.length).toBeGreaterThan(10);
  expect(names({ kind: 'shape', id: 'plumb-1' })).toContain('back-incline at address');
  expect(names({ kind: 'shape', id: 'no such shape' })).toEqual([]);
});
