import { expect, test } from 'vitest';
import type { FrameMarks } from '../../../core/model/mark.ts';
import type { MarkedClip } from '../../../core/model/swing.ts';
import { CHECKPOINTS } from '../../../core/model/words.ts';
import type { Checkpoint, View } from '../../../core/model/words.ts';
import { checkpointToFind, nextOnBench, nextOnSheet, thisIsWords } from '../../../renderer/shell/next-step.ts';

const FRAMES: Readonly<Record<string, number>> = { address: 10, top: 20, impact: 30, finish: 40 };

function clipOf(view: View, named: readonly Checkpoint[], marks: readonly FrameMarks[] = []): MarkedClip {
  const facts = { width: 354, height: 492, timebase: { num: 1, den: 30 }, nominalRate: null, captureRate: null };
  return { ...facts, view, checkpoints: Object.fromEntries(named.map((name) => [name, frameOf(name)])), marks };
}

function frameOf(name: string): FrameMarks['frame'] {
  const index = FRAMES[name] ?? 50;
  return { index, pts: index };
}

function pointed(name: string): FrameMarks {
  return { frame: frameOf(name), points: { tailbone: { x: 1, y: 2, hidden: false } }, shapes: [] };
}

function swingOf(...clips: readonly MarkedClip[]) {
  return { clips };
}

const USUAL = ['address', 'top', 'impact'] as const;

test('the sheet leads from the clip over its names and points to the stills, one step at a time', () => {
  const line = (named: readonly Checkpoint[], marks: readonly FrameMarks[] = []) =>
    nextOnSheet(swingOf(clipOf('down-the-line', named, marks)), false);
  expect(nextOnSheet(swingOf(), false)).toMatch(/^Press “Add a clip, down the line” or “Add a clip, face on”/);
  expect(line([])).toBe('Press “Find address” under Down the line.');
  expect(line(['address'])).toBe('Press “Find top” under Down the line.');
  expect(line(['address', 'top'])).toBe('Press “Find impact” under Down the line.');
  expect(line(USUAL)).toBe('Press “Open clip” under Down the line to mark its frames and read them.');
  expect(line(USUAL, [pointed('address')])).toMatch(/^Press “Open clip”/);
  expect(line(USUAL, [pointed('address'), pointed('top')])).toBe(
    'Press “Save stills”. You pick the folder. “Add a clip, face on” brings in the other view.',
  );
});

test('a comparison is offered only where there is something to compare with', () => {
  const done = swingOf(clipOf('down-the-line', USUAL, [pointed('address'), pointed('top')]));
  expect(nextOnSheet(done, true)).toMatch(/^Choose the earlier swing under “Compare with an earlier swing \(then\)”/);
  expect(nextOnSheet(done, false)).not.toMatch(/Compare/);
});

test('with two clips the one down the line comes first, then the other', () => {
  const marks = [pointed('address'), pointed('top')];
  const first = swingOf(clipOf('face-on', []), clipOf('down-the-line', ['address', 'impact']));
  expect(nextOnSheet(first, false)).toBe('Press “Find top” under Down the line.');
  const second = swingOf(clipOf('face-on', []), clipOf('down-the-line', USUAL, marks));
  expect(nextOnSheet(second, false)).toBe('Press “Find address” under Face on.');
});

test('the bench asks for the checkpoint that is looked for, and for the next usual one when it has its name', () => {
  const bare = clipOf('down-the-line', []);
  for (const checkpoint of CHECKPOINTS) {
    expect(checkpointToFind(bare, checkpoint)).toBe(checkpoint);
    expect(nextOnBench(bare, 0, checkpoint)).toContain(`press “${thisIsWords(checkpoint)}”`);
  }
  expect(checkpointToFind(clipOf('down-the-line', ['address']), 'address')).toBe('top');
  expect(checkpointToFind(clipOf('down-the-line', ['top']), null)).toBe('address');
  expect(checkpointToFind(clipOf('down-the-line', USUAL), 'impact')).toBeNull();
  expect(checkpointToFind(clipOf('down-the-line', USUAL), 'finish')).toBe('finish');
});

test('then it leads to a frame without points, asks for them there, and at last has nothing more to say', () => {
  const line = (at: number, ...marks: readonly FrameMarks[]) =>
    nextOnBench(clipOf('down-the-line', USUAL, marks), at, null);
  expect(line(30)).toBe('Press “Address” to go to its frame.');
  expect(line(10)).toBe('Press “Points” to place the body points of address.');
  expect(line(10, pointed('address'))).toBe('Press “Top” to go to its frame.');
  expect(line(20, pointed('address'))).toBe('Press “Points” to place the body points of top.');
  expect(line(20, pointed('address'), pointed('top'))).toBeNull();
});

test('face on the head box at address comes first, then the points of address alone', () => {
  const box = { kind: 'box', id: 'b', x: 1, y: 1, width: 5, height: 5, role: 'head-box' } as const;
  const face = (at: number, ...marks: readonly FrameMarks[]) => nextOnBench(clipOf('face-on', USUAL, marks), at, null);
  const boxed = { frame: frameOf('address'), points: {}, shapes: [box] };
  expect(face(10)).toBe('Press “Box” and drag a box round the head.');
  expect(face(20)).toBe('Press “Address” to go to its frame.');
  expect(face(10, { ...boxed, shapes: [{ ...box, role: null }] })).toBe('Press “Box” and drag a box round the head.');
  expect(face(10, boxed)).toBe('Press “Points” to place the body points of address.');
  expect(face(10, { ...pointed('address'), shapes: [box] })).toBeNull();
  const sheet = (...marks: readonly FrameMarks[]) => nextOnSheet(swingOf(clipOf('face-on', USUAL, marks)), false);
  expect(sheet(pointed('address'))).toMatch(/^Press “Open clip” under Face on/);
  expect(sheet({ ...pointed('address'), shapes: [box] })).toMatch(/^Press “Save stills”/);
});
