import { describe, expect, it } from 'vitest';
import { missingWords, NOTE_WORDS } from '../../../core/measure/words/format.ts';
import { questionOf } from '../../../core/measure/doubts/plausible.ts';
import { ASSUMED_PLACING } from '../../../core/measure/uncertainty/placing.ts';
import type { PlacingErrors } from '../../../core/measure/uncertainty/placing.ts';
import { rateQuestion } from '../../../core/measure/doubts/rate-question.ts';
import { readSwing } from '../../../core/measure/readings/read-swing.ts';
import type { MeasuredReading, Reading, ReadingId } from '../../../core/model/reading.ts';
import type { MarkedClip, MarkedSwing } from '../../../core/model/swing.ts';
import type { Checkpoint } from '../../../core/model/words.ts';
import { within } from '../../support/within.ts';

const TICKS = 100;

interface Filmed {
  /** Frames a second that the camera took, that the file plays, and what the coach said of the first. */
  readonly taken: number;
  readonly stored: number;
  readonly said: number | null;
}

/** A clip with frames named at instants of the swing, seconds. */
function clipOf(at: Readonly<Partial<Record<Checkpoint, number>>>, { taken, stored, said }: Filmed): MarkedClip {
  const named = Object.entries(at).map(([name, seconds]) => {
    const index = Math.round(seconds * taken) + 10;
    return [name, { index, pts: index * TICKS, ticks: TICKS }] as const;
  });
  return {
    ...{ view: 'face-on', width: 1920, height: 1080, timebase: { num: 1, den: TICKS * stored }, marks: [] },
    nominalRate: { num: stored, den: 1 },
    captureRate: said === null ? null : { framesPerSecond: { num: said, den: 1 }, confirmed: true },
    checkpoints: Object.fromEntries(named),
  };
}

const SWING = { takeaway: 0, top: 0.5, impact: 0.75 } as const;
const at = (rate: number): Filmed => ({ taken: rate, stored: rate, said: rate });

function find(clip: MarkedClip, id: ReadingId, placing: PlacingErrors = ASSUMED_PLACING): Reading {
  const swing: MarkedSwing = {
    ...{ studentFirstName: 'Ada', date: '2026-05-12', club: '7 iron', handedness: 'right', clips: [clip] },
  };
  const reading = readSwing(swing, placing).find((each) => each.id === id);
  if (reading === undefined) throw new Error(`${id} is not in the list`);
  return reading;
}

function measured(...given: Parameters<typeof find>): MeasuredReading {
  const reading = find(...given);
  if (reading.state === 'missing') throw new Error(missingWords(reading));
  return reading;
}

/** Half of the 95 % interval. */
const half = ({ u, coverage }: MeasuredReading): number => u * coverage;

describe('which frame is named is unsure, and the ± of times holds it', () => {
  it.each([
    [60, 1],
    [120, 2],
    [240, 4],
  ])('at %i a second coaches who call the same top %i apart still agree', (rate, apart) => {
    const early = measured(clipOf(SWING, at(rate)), 'tempo');
    const late = measured(clipOf({ ...SWING, top: SWING.top + apart / rate }, at(rate)), 'tempo');
    // 0.5 : 0.25 = 2 and 0.517 : 0.233 = 2.21.
    within(late.value - early.value, 0.214, 0.001);
    expect(late.value - half(late)).toBeLessThan(early.value);
    expect(early.value + half(early)).toBeGreaterThan(late.value);
    expect(late.notes).toContain('naming-assumed');
    expect(NOTE_WORDS['naming-assumed']).toContain('assumed');
  });

  it('is worked out by hand for 120 frames a second, the top being shared by both times', () => {
    // Hand-worked: d tempo / d takeaway = -1/0.25, / d top = 1/0.25 + 0.5/0.25², / d impact = -0.5/0.25².
    const frame = 1 / 120;
    const of = (seconds: number) => Math.sqrt(seconds ** 2 + (frame / 2) ** 2 + frame ** 2 / 12);
    const expected = Math.hypot(4 * of(0.015), 12 * of(0.01), 8 * of(0));
    within(measured(clipOf(SWING, at(120)), 'tempo').u, expected, 1e-4);
    within(measured(clipOf(SWING, at(120)), 'backswing').u, Math.hypot(of(0.015), of(0.01)), 1e-9);
    within(measured(clipOf(SWING, at(120)), 'downswing').u, Math.hypot(of(0.01), of(0)), 1e-9);
  });

  it('stands apart in what the ± is made of, and is the larger part', () => {
    const { budget } = measured(clipOf(SWING, at(240)), 'tempo');
    expect(budget.map(({ source }) => source)).toEqual(['naming', 'time']);
  });

  it('is as large where nobody knows the capture rate: a tempo is no surer for it', () => {
    const known = measured(clipOf(SWING, { taken: 240, stored: 30, said: 240 }), 'tempo');
    const unknown = measured(clipOf(SWING, { taken: 240, stored: 30, said: null }), 'tempo');
    within(unknown.u, known.u, 1e-3);
    // At the speed of the swing too: a clip that plays at 60 is not taken for slow motion.
    const plain = measured(clipOf({ ...SWING, impact: 0.7 }, { taken: 60, stored: 60, said: null }), 'tempo');
    within(plain.u, measured(clipOf({ ...SWING, impact: 0.7 }, at(60)), 'tempo').u, 1e-6);
  });

  it('takes what a repeat check has measured of checkpoints, with its freedom', () => {
    const naming = { known: { takeaway: 0.004, top: 0.004, impact: 0.004 }, freedom: { top: 3 } };
    const own = measured(clipOf(SWING, at(240)), 'downswing', { ...ASSUMED_PLACING, naming });
    within(own.u, Math.sqrt(2 * (0.004 ** 2 + (1 / 240) ** 2 / 12)), 1e-9);
    expect(own.notes).not.toContain('naming-assumed');
    expect(own.coverage).toBeGreaterThan(1.97);
    const half = { known: { top: 0.004 } };
    expect(measured(clipOf(SWING, at(240)), 'downswing', { ...ASSUMED_PLACING, naming: half }).notes).toContain(
      'naming-assumed',
    );
  });
});

describe('no tempo of frames that are not one after the other', () => {
  const order = ['address', 'takeaway', 'top', 'impact'] as const;
  const right = { address: -0.2, ...SWING };

  it.each(order.slice(1).map((after, i) => [order[i] ?? 'address', after] as const))(
    '%s and %s on one frame, or the wrong way round',
    (before, after) => {
      const label = before === 'address' ? 'Address' : before === 'takeaway' ? 'Takeaway' : 'Top';
      const sentence = `${label} is named on the frame of ${after} or after it. Name the two again.`;
      const equal = find(clipOf({ ...right, [after]: right[before] }, at(240)), 'tempo');
      expect(equal.state === 'missing' ? missingWords(equal) : equal.value).toBe(sentence);
      const crossed = find(clipOf({ ...right, [before]: right[after], [after]: right[before] }, at(240)), 'tempo');
      expect(crossed).toMatchObject({ state: 'missing', reason: 'wrong-order' });
    },
  );

  it('address is not asked for, only held against the others where it is named', () => {
    expect(find(clipOf(SWING, at(240)), 'tempo').state).toBe('measured');
    expect(find(clipOf(right, at(240)), 'tempo').state).toBe('measured');
  });
});

describe('a jump of the time stamps inside the span', () => {
  const cut = (frames: number): MarkedClip => {
    const clip = clipOf(SWING, at(120));
    const later = Object.entries(clip.checkpoints).map(([name, frame]) =>
      name === 'impact' ? [name, { ...frame, pts: frame.pts + frames * TICKS }] : [name, frame],
    );
    return { ...clip, checkpoints: Object.fromEntries(later) };
  };

  it.each(['downswing', 'tempo'] as const)('is said of %s, where frames are missing before impact', (id) => {
    for (const frames of [1, 5]) expect(measured(cut(frames), id).notes).toContain('time-jump');
    expect(measured(cut(0), id).notes).not.toContain('time-jump');
  });

  it('is not said of a span before it, nor of time stamps that are rounded', () => {
    expect(measured(cut(5), 'backswing').notes).not.toContain('time-jump');
    expect(measured(cut(0.5), 'downswing').notes).not.toContain('time-jump');
  });
});

describe('a capture rate that makes a downswing of 0.87 s or 0.11 s is questioned', () => {
  // Of 0.217 s: filmed at 240 and said to be 60, and filmed at 120 and said to be 240.
  const filmed = (taken: number, said: number) => clipOf({ ...SWING, impact: 0.717 }, { taken, stored: 30, said });
  const rate = (num: number) => ({ num, den: 1 });

  it('where the rate is chosen, with the time that it would make', () => {
    expect(rateQuestion(filmed(240, 240), rate(60))).toMatch(/takes 0\.87 ± .* s, which is very long/);
    expect(rateQuestion(filmed(120, 120), rate(240))).toMatch(/takes 0\.108 ± .* s, which is very short/);
    for (const right of [120, 240]) expect(rateQuestion(filmed(right, right), rate(right))).toBeNull();
    expect(rateQuestion(clipOf({ top: 0 }, at(240)), rate(30))).toBeNull();
  });

  it('and where times are read', () => {
    expect(questionOf(measured(filmed(240, 60), 'downswing'))).toContain('real rate');
    expect(questionOf(measured(filmed(120, 240), 'downswing'))).toContain('real rate');
    expect(questionOf(measured(filmed(240, 240), 'downswing'))).toBeNull();
  });
});
