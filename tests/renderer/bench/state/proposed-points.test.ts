// @vitest-environment jsdom
import { beginEmpty } from '../../shown-view.tsx';
import { beforeEach, describe, expect, test } from 'vitest';
import type { FrameMarks } from '../../../../core/model/mark.ts';
import {
  forgetLearntPoints,
  openPoints,
  proposedOn,
  proposedPoints,
} from '../../../../renderer/bench/state/proposed-points.ts';
import { startsFor } from '../../../../renderer/bench/state/starts.ts';
import { clipOf } from '../../sample-swing.ts';
import { proposedPointAt } from '../../../support/proposed-point.ts';

beginEmpty();
beforeEach(() => proposedPoints.update(() => ({})));

const marks = (index: number, points: FrameMarks['points'] = {}): FrameMarks => ({
  frame: { index, pts: index },
  points,
  shapes: [],
});
const clipWith = (...all: readonly FrameMarks[]) => ({ ...clipOf('c'), marks: all });
const propose = (frame: number, x: number): void =>
  proposedPoints.update((all) => ({
    ...all,
    c: {
      ...all['c'],
      [frame]: { 'trail-hip': proposedPointAt(x, 10, 4), 'trail-knee': proposedPointAt(x + 1, 20, 5) },
    },
  }));

describe('proposed body points', () => {
  test('are where the guided run starts, on a frame without a name too, as soon as they are there', () => {
    const clip = clipWith();
    expect(startsFor(clip, 9)).toEqual({});
    propose(9, 100);
    expect(startsFor(clip, 9)['trail-hip']).toEqual(proposedPointAt(100, 10, 4));
  });

  test('are set right by what the coach put elsewhere on the frame before; not by what stands where it was proposed', () => {
    const byHand = { x: 93, y: 14, hidden: false };
    const clip = clipWith(marks(3, { 'trail-hip': byHand, 'trail-knee': { x: 80, y: 80, hidden: false, guess: 5 } }));
    propose(3, 100);
    propose(9, 200);
    const seen = proposedPointAt(200, 10, 4);
    const moved = { x: 193, y: 14, guess: 4 };
    expect(proposedOn(clip, 9)).toEqual({
      // Where it was shown is kept, and where the model had seen it.
      'trail-hip': { ...moved, proposed: { ...seen.proposed, x: 193, y: 14 } },
      'trail-knee': proposedPointAt(201, 20, 5),
    });
  });

  test('whose error is learnt stand as they are shown, and that one alone', () => {
    const byHand = { x: 93, y: 14, hidden: false };
    const clip = clipWith(marks(3, { 'trail-hip': byHand, 'trail-knee': byHand }));
    propose(3, 100);
    propose(9, 200);
    const seen = proposedPointAt(200, 10, 4);
    const learnt = { ...seen, proposed: { ...seen.proposed, learnt: 12 } };
    proposedPoints.update((all) => ({ ...all, c: { ...all['c'], 9: { ...all['c']?.[9], 'trail-hip': learnt } } }));
    expect(proposedOn(clip, 9)).toMatchObject({ 'trail-hip': learnt, 'trail-knee': { x: 193, y: 14 } });
  });

  test('go with what they were learnt from, and what is only assumed stays', () => {
    const clip = clipWith();
    propose(3, 100);
    propose(9, 200);
    const seen = proposedPointAt(200, 10, 4);
    const learnt = { ...seen, proposed: { ...seen.proposed, learnt: 12 } };
    proposedPoints.update((all) => ({ ...all, c: { ...all['c'], 9: { ...all['c']?.[9], 'trail-hip': learnt } } }));
    forgetLearntPoints();
    expect(proposedOn(clip, 9)).toEqual({});
    expect(Object.keys(proposedOn(clip, 3))).toEqual(['trail-hip', 'trail-knee']);
  });

  test('that were accepted keep their error where a later frame starts from them', () => {
    const accepted = { x: 80, y: 80, hidden: false, guess: 5 };
    const byHand = { x: 90, y: 90, hidden: false };
    const named = { checkpoints: { top: { index: 9, pts: 9, ticks: 1 } } };
    const clip = { ...clipWith(marks(3, { 'trail-knee': accepted, 'trail-hip': byHand })), ...named };
    expect(startsFor(clip, 9)).toEqual({ 'trail-knee': { x: 80, y: 80, guess: 5 }, 'trail-hip': { x: 90, y: 90 } });
  });

  test('that are placed are not open any more', () => {
    propose(9, 100);
    const run = ['trail-hip', 'trail-knee', 'ball'] as const;
    expect(openPoints(clipWith(), marks(9), run)).toEqual(['trail-hip', 'trail-knee']);
    const placed = marks(9, { 'trail-hip': { x: 1, y: 1, hidden: false } });
    expect(openPoints(clipWith(), placed, run)).toEqual(['trail-knee']);
  });
});
