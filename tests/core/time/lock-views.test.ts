import { describe, expect, it } from 'vitest';
import type { CaptureRate } from '../../../core/model/frame.ts';
import type { Checkpoint } from '../../../core/model/words.ts';
import { lockViews, whatLockNeeds } from '../../../core/time/lock-views.ts';
import type { LockableClip } from '../../../core/time/lock-views.ts';
import { seeded } from '../../support/seeded.ts';

interface Made {
  readonly count: number;
  /** Ticks a frame and ticks a second of the file. */
  readonly step: number;
  readonly den: number;
  readonly captured?: number;
  /** Frame of each named checkpoint. */
  readonly named: Readonly<Partial<Record<Checkpoint, number>>>;
}

function clipOf({ count, step, den, captured, named }: Made): LockableClip {
  const captureRate: CaptureRate | null =
    captured === undefined ? null : { framesPerSecond: { num: captured, den: 1 }, confirmed: true };
  return {
    timebase: { num: 1, den },
    nominalRate: { num: den, den: step },
    captureRate,
    checkpoints: Object.fromEntries(Object.entries(named).map(([name, frame]) => [name, { pts: frame * step }])),
    frames: Array.from({ length: count }, (_, place) => ({ pts: place * step })),
  };
}

/** 240 a second played at 30, and 60 a second played as taken: the same swing, impact at 1.5 s and at 0.8 s of it. */
const slow = clipOf({ count: 720, step: 512, den: 15360, captured: 240, named: { impact: 360 } });
const quick = clipOf({ count: 120, step: 1001, den: 60060, captured: 60, named: { impact: 48 } });

function framesFor(from: LockableClip, to: LockableClip): number[] {
  const lock = lockViews(from, to);
  return from.frames.map((_, index) => lock?.frameFor(index) ?? -1);
}

function frameOf(clip: LockableClip, checkpoint: Checkpoint): number {
  return clip.frames.findIndex(({ pts }) => pts === clip.checkpoints[checkpoint]?.pts);
}

describe('two clips locked at impact', () => {
  it('show impact together, both ways', () => {
    expect(lockViews(slow, quick)?.frameFor(360)).toBe(48);
    expect(lockViews(quick, slow)?.frameFor(48)).toBe(360);
    expect(lockViews(slow, quick)?.checkpoints).toEqual(['impact']);
  });

  it('run by the time of the swing where both capture rates are known: four frames of 240 to one of 60', () => {
    expect([356, 358, 359, 361, 364, 380].map((at) => lockViews(slow, quick)?.frameFor(at))).toEqual([
      47, 47, 48, 48, 49, 53,
    ]);
    expect([46, 47, 49, 58].map((at) => lockViews(quick, slow)?.frameFor(at))).toEqual([352, 356, 364, 400]);
  });

  it('run as the files play where a capture rate is not known', () => {
    const unknown = { ...slow, captureRate: null };
    // A frame of one stays for 1/30 s, of the other for 1/60 s.
    expect([350, 359, 361, 370].map((at) => lockViews(unknown, quick)?.frameFor(at))).toEqual([28, 46, 50, 68]);
  });

  it('stop at the first and the last frame', () => {
    const frames = framesFor(slow, quick);
    expect([frames[0], frames.at(-1)]).toEqual([0, 119]);
    expect(lockViews(quick, slow)?.frameFor(0)).toBe(168);
    expect(lockViews(slow, quick)?.frameFor(-5)).toBe(0);
    expect(lockViews(slow, quick)?.frameFor(5000)).toBe(119);
  });
});

describe('more common checkpoints', () => {
  const long = clipOf({
    count: 400,
    step: 512,
    den: 15360,
    named: { address: 20, top: 150, impact: 210, finish: 330 },
  });
  const short = clipOf({ count: 110, step: 3000, den: 90000, named: { address: 3, top: 41, impact: 55, finish: 90 } });

  it('are met exactly, both ways', () => {
    for (const [from, to] of [
      [long, short],
      [short, long],
    ] as const)
      for (const checkpoint of ['address', 'top', 'impact', 'finish'] as const)
        expect(lockViews(from, to)?.frameFor(frameOf(from, checkpoint))).toBe(frameOf(to, checkpoint));
  });

  it('share out the time between them evenly', () => {
    // Half way from top (150) to impact (210), and from 41 to 55.
    expect(lockViews(long, short)?.frameFor(180)).toBe(48);
    // A third of the way from address (20) to top (150): 43.33 goes with a third of 3 to 41, 15.67.
    expect(lockViews(long, short)?.frameFor(63)).toBe(16);
  });

  it('go on beyond the last one as in the nearest piece, where a capture rate is not known', () => {
    // impact to finish: 120 frames to 35.
    expect(lockViews(long, short)?.frameFor(354)).toBe(97);
    // address to top: 130 frames to 38, and frame 0 would be 2.8 before the first.
    expect(lockViews(long, short)?.frameFor(10)).toBe(0);
  });

  it('go on beyond the last one by the time of the swing, where both are known', () => {
    const [from, to] = [long, short].map((clip) => ({
      ...clip,
      captureRate: { framesPerSecond: { num: clip === long ? 240 : 120, den: 1 }, confirmed: false },
    }));
    if (from === undefined || to === undefined) throw new Error('two clips');
    expect(lockViews(from, to)?.frameFor(350)).toBe(100);
  });

  it('that stand in another order in one clip are left out, impact never', () => {
    const wrong = { ...short, checkpoints: { ...short.checkpoints, top: { pts: 0 } } };
    expect(lockViews(long, wrong)?.checkpoints).toEqual(['address', 'impact', 'finish']);
    const late = { ...short, checkpoints: { ...short.checkpoints, impact: { pts: 95 * 3000 } } };
    const lock = lockViews(long, late);
    expect(lock?.checkpoints).toEqual(['address', 'top', 'impact']);
    expect(lock?.frameFor(210)).toBe(95);
  });

  it('of which two name one frame count once', () => {
    const doubled = { ...long, checkpoints: { ...long.checkpoints, through: { pts: 330 * 512 } } };
    const other = { ...short, checkpoints: { ...short.checkpoints, through: { pts: 70 * 3000 } } };
    const lock = lockViews(doubled, other);
    expect(lock?.checkpoints).toHaveLength(4);
    expect(lock?.frameFor(210)).toBe(55);
  });
});

describe('whatever is named', () => {
  it('a later frame never goes with an earlier one, and named frames meet', () => {
    const random = seeded(20);
    const names = ['address', 'takeaway', 'top', 'impact', 'finish'] as const;
    for (let round = 0; round < 200; round += 1) {
      const make = (): LockableClip => {
        const count = 30 + Math.floor(random() * 300);
        const places = names.map(() => Math.floor(random() * count)).toSorted((a, b) => a - b);
        const named = Object.fromEntries(
          names.flatMap((name, at) => (random() < 0.6 ? [[name, places[at] ?? 0]] : [])),
        );
        const captured = random() < 0.5 ? { captured: 60 + Math.floor(random() * 180) } : {};
        return clipOf({ count, step: 100 + Math.floor(random() * 900), den: 15360, named, ...captured });
      };
      const [from, to] = [make(), make()];
      const lock = lockViews(from, to);
      if (lock === null) continue;
      const frames = framesFor(from, to);
      expect(frames).toEqual(frames.toSorted((a, b) => a - b));
      expect(frames.every((frame) => frame >= 0 && frame < to.frames.length)).toBe(true);
      for (const checkpoint of lock.checkpoints)
        expect(frames[frameOf(from, checkpoint)]).toBe(frameOf(to, checkpoint));
      expect(lockViews(to, from)?.checkpoints).toEqual(lock.checkpoints);
    }
  });
});

describe('nothing in common', () => {
  const names = { from: 'down the line', to: 'face on' };
  const none = clipOf({ count: 10, step: 1, den: 30, named: {} });

  it('gives no lock, and says what to name', () => {
    expect(lockViews(none, quick)).toBeNull();
    expect(lockViews(clipOf({ count: 9, step: 1, den: 30, named: { top: 3 } }), quick)).toBeNull();
    expect(whatLockNeeds(none, quick, names)).toBe('Name impact in down the line, so that both show the same instant.');
    expect(whatLockNeeds(quick, none, names)).toBe('Name impact in face on, so that both show the same instant.');
    expect(whatLockNeeds(none, none, names)).toMatch(/^Name impact in down the line and in face on,/);
  });

  it('asks for what is named already in one of them', () => {
    const top = clipOf({ count: 10, step: 1, den: 30, named: { top: 5 } });
    expect(whatLockNeeds(none, top, names)).toMatch(/^Name top in down the line,/);
  });

  it('of frames gives no lock', () => {
    expect(lockViews({ ...quick, frames: [] }, quick)).toBeNull();
    expect(lockViews(quick, { ...quick, frames: [] })).toBeNull();
  });
});
