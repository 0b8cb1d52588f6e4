import { expect, test } from 'vitest';
import { readSwing } from '../../../../core/measure/readings/read-swing.ts';
import type { MarkedClip, MarkedSwing } from '../../../../core/model/swing.ts';
import type { View } from '../../../../core/model/words.ts';
import { arcProgress } from '../../../../renderer/bench/marks/arc-progress.ts';
import { arcSwing } from '../../../core/measure/arc-swing.ts';

function progressOf(
  swing: MarkedSwing,
  view: View = 'face-on',
  change: (clip: MarkedClip) => MarkedClip = (clip) => clip,
) {
  const clips = swing.clips.map((clip) => (clip.view === view ? change(clip) : clip));
  const clip = clips.find((each) => each.view === view);
  if (clip === undefined) throw new Error('no such view');
  return arcProgress(clip, readSwing({ ...swing, clips }));
}

const without = (clip: MarkedClip): MarkedClip => ({
  ...clip,
  marks: clip.marks.map((marks) => ({ ...marks, shapes: marks.shapes.filter(({ kind }) => kind !== 'path') })),
});

test('a path face on says how many frames the arc still needs', () => {
  expect(progressOf(arcSwing(), 'face-on', without).wants).toEqual(['The arc needs 6 frames round impact.']);
  expect(progressOf(arcSwing({ frames: [2, 2] })).wants).toEqual(['The arc needs 1 more frame round impact.']);
  expect(progressOf(arcSwing({ frames: [1, 1] })).wants).toEqual(['The arc needs 3 more frames round impact.']);
});

test('with frames enough it says what each reading lacks, once for all that lack the same', () => {
  expect(progressOf(arcSwing()).wants).toEqual([]);
  expect(progressOf(arcSwing({ frames: [3, 3] })).wants).toEqual([
    "Arc radius, Low point, Arc centre shift and Clubhead speed: The clubhead's path round impact covers too little of its arc; follow it on more frames, or film with more of them.",
  ]);
  expect(progressOf(arcSwing({ shapes: [] })).wants).toEqual([
    'Clubhead speed: Mark a known length: draw a line along something you can measure.',
  ]);
});

test('before impact is named, that comes first', () => {
  const unnamed = (clip: MarkedClip): MarkedClip => ({ ...clip, checkpoints: {} });
  expect(progressOf(arcSwing(), 'face-on', unnamed).wants).toEqual(['Name the frame of impact.']);
});

test('down the line the path tells how the arc leans', () => {
  const { words, wants } = progressOf(arcSwing(), 'down-the-line');
  expect(words).toMatch(/leans/);
  expect(wants).toEqual([]);
  expect(progressOf(arcSwing(), 'down-the-line', without).wants).toEqual(['It needs 4 frames round impact.']);
});
