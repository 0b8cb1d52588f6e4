import { describe, expect, it } from 'vitest';
import type { RepeatChoice } from '../../../core/model/repeat-check.ts';
import {
  beginRepeat,
  choiceShown,
  finishedCheck,
  placedHere,
  pointWanted,
  progressOf,
  stepRepeat,
} from '../../../renderer/tools/repeat-tool.ts';
import type { RepeatRound } from '../../../renderer/tools/repeat-tool.ts';
import type { ToolEvent } from '../../../renderer/tools/tool.ts';

const FIRST: RepeatChoice = { clipId: 'a', frame: { index: 3, pts: 30 }, points: ['tailbone', 'ball'] };
const SECOND: RepeatChoice = { clipId: 'b', frame: { index: 8, pts: 80 }, points: ['ball'] };
const SHOWINGS = [
  { choice: 1, round: 1 },
  { choice: 0, round: 1 },
  { choice: 1, round: 2 },
  { choice: 0, round: 2 },
];
const CENTRE = { x: 500, y: 400 };

class Hand {
  run: RepeatRound = beginRepeat([FIRST, SECOND], SHOWINGS);
  used = false;

  send(event: ToolEvent): this {
    const step = stepRepeat(this.run, event, 12, CENTRE);
    this.run = step.run;
    this.used = step.used;
    return this;
  }
  click(x: number, y: number): this {
    return this.send({ type: 'down', at: { x, y } }).send({ type: 'up', at: { x, y } });
  }
  key(key: string): this {
    return this.send({ type: 'key', key });
  }
}

const marked = ({ clipId }: RepeatChoice) => ({
  tailbone: { x: 1, y: 2, hidden: false },
  ball: { x: clipId === 'a' ? 3 : 4, y: 5, hidden: false },
});

describe('a repeat check', () => {
  it('asks for each point of each showing, and ends with all places in the order of their rounds', () => {
    const hand = new Hand();
    expect(progressOf(hand.run)).toEqual({ done: 0, of: 6 });
    const wanted: unknown[] = [];
    for (let n = 0; n < 6; n += 1) {
      wanted.push([choiceShown(hand.run)?.clipId, pointWanted(hand.run)]);
      hand.click(100 * n, 50);
      expect(progressOf(hand.run).done).toBe(n + 1);
    }
    const a = [
      ['a', 'tailbone'],
      ['a', 'ball'],
    ];
    expect(wanted).toEqual([['b', 'ball'], ...a, ['b', 'ball'], ...a]);
    expect(choiceShown(hand.run)).toBeNull();
    expect(hand.click(1, 1).used).toBe(false);
    expect(finishedCheck(hand.run, marked)).toEqual([
      {
        clipId: 'a',
        frame: { index: 3, pts: 30 },
        placings: {
          tailbone: [
            { x: 1, y: 2 },
            { x: 100, y: 50 },
            { x: 400, y: 50 },
          ],
          ball: [
            { x: 3, y: 5 },
            { x: 200, y: 50 },
            { x: 500, y: 50 },
          ],
        },
      },
      {
        clipId: 'b',
        frame: { index: 8, pts: 80 },
        placings: {
          ball: [
            { x: 4, y: 5 },
            { x: 0, y: 50 },
            { x: 300, y: 50 },
          ],
        },
      },
    ]);
  });

  it('begins every showing bare', () => {
    const hand = new Hand().click(0, 0).click(10, 10).click(20, 20);
    expect(hand.run.at).toBe(2);
    expect(placedHere(hand.run)).toEqual({});
    expect(hand.run.selected).toBeNull();
  });

  it('left half way, or of a frame whose marks are gone, is no check', () => {
    const hand = new Hand().click(0, 0).click(10, 10);
    expect(finishedCheck(hand.run, marked)).toBeNull();
    for (let n = 0; n < 4; n += 1) hand.click(30 * n, 30);
    expect(finishedCheck(hand.run, marked)).not.toBeNull();
    expect(finishedCheck(hand.run, () => ({}))).toBeNull();
    expect(finishedCheck(beginRepeat([], []), marked)).toBeNull();
  });

  it('goes back one point by Backspace, over frames, to the very start', () => {
    const hand = new Hand().click(0, 0).click(100, 100).click(200, 200);
    expect(hand.run.at).toBe(2);
    hand.key('Backspace');
    expect([hand.run.at, pointWanted(hand.run)]).toEqual([1, 'ball']);
    hand.key('Backspace');
    expect([hand.run.at, pointWanted(hand.run)]).toEqual([1, 'tailbone']);
    hand.key('Backspace');
    expect([hand.run.at, pointWanted(hand.run), progressOf(hand.run).done]).toEqual([0, 'ball', 0]);
    expect(hand.key('Backspace').used).toBe(false);
  });

  it('by keys a point is put in the middle, moved, and let stand; the next frame waits for Enter', () => {
    const hand = new Hand().key('Enter');
    expect([hand.run.at, placedHere(hand.run).ball]).toEqual([0, { ...CENTRE, hidden: false }]);
    hand.send({ type: 'nudge', by: { x: -1, y: 0 } }).send({ type: 'nudge', by: { x: 0, y: 0.1 } });
    expect(placedHere(hand.run).ball).toEqual({ x: 499, y: 400.1, hidden: false });
    hand.key('Enter');
    expect(hand.run.at).toBe(1);
    expect(hand.run.placed[0]?.ball).toEqual({ x: 499, y: 400.1, hidden: false });
  });

  it('Delete takes a selected point away and asks for it again', () => {
    const hand = new Hand().click(0, 0).click(100, 100);
    expect(hand.run.selected).toEqual({ kind: 'point', point: 'tailbone' });
    hand.key('Delete');
    expect(pointWanted(hand.run)).toBe('tailbone');
  });

  it('says of no point that it is hidden: those are not asked for', () => {
    const hand = new Hand().click(0, 0).click(100, 100).key('h');
    expect(hand.used).toBe(false);
    expect(placedHere(hand.run).tailbone?.hidden).toBe(false);
  });

  it('a placed point of the same frame is dragged to its place', () => {
    const hand = new Hand().click(0, 0).click(100, 100);
    hand.send({ type: 'down', at: { x: 101, y: 100 } }).send({ type: 'move', at: { x: 120, y: 100 } });
    expect(hand.run.draft?.tailbone?.x).toBe(119);
    hand.send({ type: 'up', at: { x: 120, y: 100 } });
    expect([placedHere(hand.run).tailbone?.x, hand.run.at]).toEqual([119, 1]);
  });

  it('cancelled at any step keeps what was placed and nothing else', () => {
    const hand = new Hand().click(0, 0).send({ type: 'down', at: { x: 7, y: 7 } });
    expect(hand.run.draft).not.toBeNull();
    hand.send({ type: 'cancel' });
    expect([hand.run.draft, placedHere(hand.run), hand.run.at]).toEqual([null, {}, 1]);
    expect(hand.send({ type: 'cancel' }).used).toBe(false);
  });
});
