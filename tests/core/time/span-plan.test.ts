import { describe, expect, it } from 'vitest';
import { planSpan } from '../../../core/time/span-plan.ts';
import { shownFrames } from '../../../core/time/shown-frames.ts';
import type { TimedPicture } from '../../../core/time/shown-frames.ts';

/** Pictures in file order from times; `K` marks a key, `h` one that is hidden. */
function coded(text: string): TimedPicture[] {
  return text.split(' ').map((word) => ({
    pts: word.startsWith('?') ? null : Number.parseInt(word, 10),
    duration: 1,
    key: word.includes('K'),
    hidden: word.includes('h'),
  }));
}

function plan(text: string, from: number, to: number, passOver = 0) {
  const pictures = coded(text);
  return planSpan({ frames: shownFrames(pictures).frames }, pictures, from, to, passOver);
}

const PLAIN = { hiddenBefore: false, hiddenAfter: null };
/** Two closed groups, with pictures that are coded after one that is shown later. */
const CLOSED = '0K 3 1 2 5 4 6K 9 7 8 10';
/** The second group is open: 4 and 5 are shown before its key and need the group before. */
const OPEN = '0K 3 1 2 6K 4 5 9 7 8';

describe('a part of a clip begins', () => {
  it('at the last key picture that is not later', () => {
    expect(plan(CLOSED, 5, 5)).toEqual({ first: 0, entry: 0, last: 5, end: 5, ...PLAIN });
    expect(plan(CLOSED, 6, 6)).toEqual({ first: 6, entry: 6, last: 6, end: 6, ...PLAIN });
    expect(plan(CLOSED, 10, 10)).toEqual({ first: 6, entry: 6, last: 10, end: 10, ...PLAIN });
  });

  it('at the key before that when it is passed over, and nowhere when there is none', () => {
    expect(plan(CLOSED, 10, 10, 1)).toMatchObject({ first: 0, entry: 0 });
    expect(plan(CLOSED, 10, 10, 2)).toBeNull();
  });

  it('without what an open group shows before its key', () => {
    expect(plan(OPEN, 7, 7)).toEqual({ first: 6, entry: 6, last: 9, end: 9, ...PLAIN });
    expect(plan(OPEN, 5, 5)).toEqual({ first: 0, entry: 0, last: 6, end: 6, ...PLAIN });
  });

  it('never at a key before which a later frame was coded', () => {
    expect(plan('0K 4 3K 1 2 5', 4, 4)).toMatchObject({ first: 0, entry: 0 });
  });

  it('at a hidden key picture where an edit cut its group, with what it needs hidden', () => {
    expect(plan('-3Kh -1h -2h 2 0 1 3K 4', 1, 1)).toEqual({
      ...{ first: 0, entry: -3, last: 2, end: 2, hiddenBefore: true, hiddenAfter: null },
    });
    expect(plan('-3Kh -1h -2h 2 0 1 3K 4', 3, 3)).toMatchObject({ first: 3, entry: 3, hiddenBefore: false });
  });
});

describe('it ends', () => {
  it('where nothing coded so far is shown later, so that no frame is missing in between', () => {
    expect(plan(CLOSED, 0, 0)).toMatchObject({ last: 0 });
    expect(plan(CLOSED, 0, 1)).toMatchObject({ last: 3, end: 3 });
    expect(plan(CLOSED, 0, 3)).toMatchObject({ last: 3 });
    expect(plan(OPEN, 0, 3)).toMatchObject({ last: 3 });
    expect(plan(OPEN, 0, 4)).toMatchObject({ last: 6, end: 6 });
  });

  it('with pictures that must be hidden where an edit cut the last of them off', () => {
    expect(plan('0K 1 5h 2 4h 3', 0, 3)).toEqual({
      ...{ first: 0, entry: 0, last: 3, end: 5, hiddenBefore: false, hiddenAfter: 4 },
    });
    expect(plan('0K 1 5h 2 4h 3', 0, 1)).toMatchObject({ last: 1, hiddenAfter: null });
  });
});

describe('there is no plan', () => {
  const { frames } = shownFrames(coded(CLOSED));
  it('when the pictures read do not reach to the end, or from the key on', () => {
    expect(planSpan({ frames }, coded('0K 3 1 2 5'), 0, 4, 0)).toBeNull();
    expect(planSpan({ frames }, coded('9 7 8 10'), 8, 8, 0)).toBeNull();
    expect(planSpan({ frames }, [], 8, 8, 0)).toBeNull();
  });

  it('when pictures have no times', () => {
    expect(planSpan({ frames }, coded('?K ? ? ?'), 0, 0, 0)).toBeNull();
  });

  it('for a span outside of the clip, which is our own mistake', () => {
    for (const [from, to] of [
      [0, 11],
      [-1, 0],
      [5, 4],
    ] as const)
      expect(() => planSpan({ frames }, coded(CLOSED), from, to, 0)).toThrow('0 to 10');
  });
});
