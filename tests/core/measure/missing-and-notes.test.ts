import { describe, expect, it } from 'vitest';
import { missingWords } from '../../../core/measure/words/format.ts';
import { HIDDEN_FACTOR } from '../../../core/measure/uncertainty/placing.ts';
import { readSwing } from '../../../core/measure/readings/read-swing.ts';
import type { BoxShape } from '../../../core/model/mark.ts';
import type { Reading } from '../../../core/model/reading.ts';
import type { MarkedSwing } from '../../../core/model/swing.ts';
import { within } from '../../support/within.ts';
import { findReading, measuredReading, swingOf } from './build-swing.ts';
import { frameOf, line } from './invented-swing.ts';
import { STEADY } from '../../support/steady.ts';

const BACK = { tailbone: [300, 600], 'neck-base': [600, 200] } as const;
const HEAD = { 'head-centre': [500, 200] } as const;
const BOX: BoxShape = { id: 'box', kind: 'box', role: 'head-box', x: 450, y: 150, width: 100, height: 100 };

function wordsOf(reading: Reading): string {
  if (reading.state === 'measured') throw new Error('it was measured');
  return missingWords(reading);
}

describe('a reading that cannot be made says why and what to do', () => {
  it('a frame is not named', () => {
    const reading = findReading(swingOf({ view: 'face-on', placed: { top: HEAD } }), 'head-shift');
    expect(reading).toEqual({
      id: 'head-shift',
      aspect: 'value',
      view: 'face-on',
      checkpoint: 'top',
      state: 'missing',
      reason: 'checkpoint-not-named',
      needs: { points: [{ point: 'head-centre', checkpoint: 'address' }], checkpoints: ['address'], headBox: false },
    });
    expect(wordsOf(reading)).toBe('Name the frame of address.');
  });

  it('points are not placed', () => {
    const swing = swingOf({ view: 'down-the-line', placed: { address: { tailbone: [1, 2] }, top: {} } });
    const reading = findReading(swing, 'shoulder-to-spine');
    expect(reading).toMatchObject({ state: 'missing', reason: 'points-missing' });
    expect(wordsOf(reading)).toBe('Place lead shoulder and trail shoulder at top and neck base at address.');
  });

  it('the head box is not drawn', () => {
    const reading = findReading(swingOf({ view: 'face-on', placed: { address: HEAD, top: HEAD } }), 'head-box');
    expect(reading).toMatchObject({ state: 'missing', reason: 'shape-missing', needs: { headBox: true } });
    expect(wordsOf(reading)).toBe('Draw a head box on the frame of address.');
  });

  it('two points lie on one another', () => {
    const swing = swingOf({ view: 'down-the-line', placed: { address: { tailbone: [5, 5], 'neck-base': [5, 5] } } });
    const reading = findReading(swing, 'back-incline');
    expect(reading).toMatchObject({ state: 'missing', reason: 'same-place' });
    expect(wordsOf(reading)).toContain('Move one of them');
  });

  it('the named frames are not in the order of a swing', () => {
    const swing = swingOf({
      view: 'face-on',
      placed: { address: HEAD, takeaway: {}, top: HEAD, impact: {} },
      clip: {
        checkpoints: {
          address: frameOf('top'),
          takeaway: frameOf('impact'),
          top: frameOf('address'),
          impact: frameOf('finish'),
        },
      },
    });
    for (const id of ['head-shift', 'backswing', 'tempo'] as const) {
      const reading = findReading(swing, id, id === 'head-shift' ? { checkpoint: 'top' } : {});
      expect([id, reading.state === 'missing' ? reading.reason : 'measured']).toEqual([id, 'wrong-order']);
    }
    // Top to impact is in order and is still given.
    expect(findReading(swing, 'downswing').state).toBe('measured');
  });

  it('times need every frame of their span', () => {
    const swing = swingOf({ view: 'face-on', placed: { top: {}, impact: {} } });
    expect(findReading(swing, 'downswing').state).toBe('measured');
    const tempo = findReading(swing, 'tempo');
    expect(tempo).toMatchObject({ state: 'missing', reason: 'checkpoint-not-named' });
    expect(wordsOf(tempo)).toBe('Name the frame of takeaway.');
  });
});

describe('notes tell what a value rests on', () => {
  const shift = (swing: MarkedSwing) => measuredReading(swing, 'head-shift');
  const placed = { address: HEAD, top: { 'head-centre': [480, 190] } } as const;
  const plumb = line('plumb', { x: 100, y: 900 }, { x: 100, y: 100 }, null);
  const knownLength = line('yardstick', { x: 200, y: 950 }, { x: 700, y: 950 }, 1000);

  it('pixels without a known length and a head box', () => {
    const reading = shift(swingOf({ view: 'face-on', placed }));
    expect(reading).toMatchObject({ value: -20, unit: 'px', notes: ['placing-assumed', 'no-plumb', 'uncalibrated'] });
    // Two placements of 3 px each.
    within(reading.u, 3 * Math.SQRT2, 1e-6);
    expect(reading.from).toEqual([
      { point: 'head-centre', checkpoint: 'top' },
      { point: 'head-centre', checkpoint: 'address' },
    ]);
  });

  it('centimetres with a known length, whose own error goes into u', () => {
    const reading = shift(swingOf({ view: 'face-on', placed, shapes: [plumb, knownLength, BOX] }));
    // 500 px are 1 m: 0.2 cm a pixel.
    within(reading.value, -4, 1e-12);
    expect(reading.unit).toBe('cm');
    expect(reading.notes).toEqual(['placing-assumed', 'known-length-plane']);
    expect(reading.shapes).toEqual([plumb.id, knownLength.id]);
    const placing = 3 * Math.SQRT2 * 0.2;
    const scale = (4 * 3 * Math.SQRT2) / 500;
    // The tilt of the plumb turns 10 px of rise into shift.
    const tilt = 10 * 0.2 * ((3 * Math.SQRT2) / 800);
    within(reading.u, Math.hypot(placing, scale, tilt), 1e-6);
  });

  it('per cent of the head box, whose edges err too', () => {
    const reading = shift(swingOf({ view: 'face-on', placed, shapes: [BOX] }));
    expect(reading).toMatchObject({ unit: '% head box', shapes: ['box'], notes: ['placing-assumed', 'no-plumb'] });
    within(reading.u, Math.hypot(3 * Math.SQRT2, (20 * 3 * Math.SQRT2) / 100), 0.001);
  });

  it('a hidden point is surer to be off', () => {
    const swing = swingOf({ view: 'face-on', placed });
    const clips = swing.clips.map((clip) => ({
      ...clip,
      marks: clip.marks.map((marks, k) =>
        k === 1 ? { ...marks, points: { 'head-centre': { x: 480, y: 190, hidden: true } } } : marks,
      ),
    }));
    const reading = shift({ ...swing, clips });
    expect(reading.notes).toContain('hidden-point');
    within(reading.u, Math.hypot(3, 3 * HIDDEN_FACTOR), 1e-6);
  });

  it('a point that stands where it was proposed errs as it says of itself, but never less than one placed by hand', () => {
    const swing = swingOf({ view: 'face-on', placed });
    const proposed = (guess: number) => ({
      ...swing,
      clips: swing.clips.map((clip) => ({
        ...clip,
        marks: clip.marks.map((marks, k) =>
          k === 1 ? { ...marks, points: { 'head-centre': { x: 480, y: 190, hidden: false, guess } } } : marks,
        ),
      })),
    });
    expect(shift(proposed(14)).notes).toContain('proposed-point');
    within(shift(proposed(14)).u, Math.hypot(3, 14), 1e-6);
    within(shift(proposed(0.5)).u, Math.hypot(3, 3), 1e-6);
    expect(shift(swing).notes).not.toContain('proposed-point');
  });

  it('a point that stands as proposed is not called assumed where its error was learnt', () => {
    const swing = swingOf({ view: 'face-on', placed });
    const at = { x: 480, y: 190 };
    const kept = { ...at, model: at, assumed: 20, size: 700, at: '2026-11-30T12:00:00.000Z' };
    const noted = (learnt: { readonly learnt?: number }) => {
      const point = { ...at, hidden: false, guess: 14, proposed: { ...kept, ...learnt } };
      const clips = swing.clips.map((clip) => ({
        ...clip,
        marks: clip.marks.map((marks) => ({ ...marks, points: { 'head-centre': point } })),
      }));
      const reading = readSwing({ ...swing, clips }, STEADY).find(({ id }) => id === 'head-shift');
      if (reading?.state !== 'measured') throw new Error('missing');
      within(reading.u, Math.hypot(14, 14), 1e-6);
      return reading.notes;
    };
    expect(noted({})).toContain('placing-assumed');
    expect(noted({ learnt: 30 })).not.toContain('placing-assumed');
    expect(noted({ learnt: 30 })).toContain('proposed-point');
  });

  it('a placing error from a repeat check is used for its point, and is not called assumed', () => {
    const swing = swingOf({ view: 'face-on', placed });
    const placing = { known: { 'head-centre': 1 }, assumed: 3 } as const;
    const reading = readSwing(swing, { ...STEADY, ...placing }).find(({ id }) => id === 'head-shift');
    if (reading?.state !== 'measured') throw new Error('missing');
    within(reading.u, Math.SQRT2, 1e-6);
    expect(reading.notes).not.toContain('placing-assumed');
  });

  it('the placing error grows with the lines of the picture', () => {
    const swing = swingOf({ view: 'face-on', placed, clip: { height: 2160, width: 3840 } });
    within(shift(swing).u, 6 * Math.SQRT2, 1e-6);
  });

  it('a plumb that leans turns the vertical, and its error goes into u', () => {
    const given = { view: 'down-the-line', placed: { address: BACK } } as const;
    const upright = measuredReading(swingOf(given), 'back-incline');
    // Leaning 3 over 400 toward the ball.
    const leaning = line('plumb', { x: 100, y: 900 }, { x: 106, y: 100 }, null);
    const turned = measuredReading(swingOf({ ...given, shapes: [leaning] }), 'back-incline');
    const lean = (Math.atan2(6, 800) * 180) / Math.PI;
    within(turned.value, upright.value - lean, 1e-9);
    const own = (((3 * Math.SQRT2) / Math.hypot(6, 800)) * 180) / Math.PI;
    within(turned.u, Math.hypot(upright.u, own), 1e-6);
    expect(upright.notes).toContain('no-plumb');
    expect(turned.notes).not.toContain('no-plumb');
    // Drawn from top to bottom it says the same.
    const reversed = swingOf({ ...given, shapes: [{ ...leaning, a: leaning.b, b: leaning.a }] });
    within(measuredReading(reversed, 'back-incline').value, turned.value, 1e-12);
  });

  it('a line shorter than its placing error is nearly free', () => {
    const swing = swingOf({
      view: 'down-the-line',
      placed: { address: { tailbone: [300, 600], 'neck-base': [304, 596] } },
    });
    const reading = measuredReading(swing, 'back-incline');
    expect(reading.notes).toContain('short-line');
    // Two places 5.7 px apart, each off by 3 px in x and in y: 1.96 x 4.24 px is more than that, so it may run any way.
    within(reading.interval[1] - reading.interval[0], 360, 1e-9);
  });

  it('a capture rate that the coach has not confirmed', () => {
    const rate = { framesPerSecond: { num: 240, den: 1 }, confirmed: false };
    const swing = swingOf({ view: 'face-on', placed: { top: {}, impact: {} }, clip: { captureRate: rate } });
    expect(measuredReading(swing, 'downswing')).toMatchObject({
      unit: 's',
      notes: ['naming-assumed', 'capture-rate-unconfirmed'],
    });
  });
});

describe('folds of angles', () => {
  it('a leg placed exactly straight still has an uncertainty, and cannot be more than straight', () => {
    const leg = { 'lead-hip': [500, 300], 'lead-knee': [500, 500], 'lead-ankle': [500, 700] } as const;
    const reading = measuredReading(swingOf({ view: 'down-the-line', placed: { address: leg } }), 'lead-knee');
    // Arms of 200 px: u = 3 sqrt(6) / 200 rad, the three-point formula at 180 degrees.
    within(reading.u, (((3 * Math.sqrt(6)) / 200) * 180) / Math.PI, 1e-3);
    expect(reading.value).toBe(180);
    expect(reading.interval[1]).toBe(180);
    within(reading.interval[0], 180 - 1.96 * reading.u, 1e-9);
  });
});
