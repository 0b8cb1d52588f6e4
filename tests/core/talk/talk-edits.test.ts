import { describe, expect, test } from 'vitest';
import type { TalkEdit } from '../../../core/model/talk.ts';
import { edited, editedBy } from '../../../core/talk/talk-edits.ts';
import { changesOf, drawnMarks, stateAt } from '../../../core/talk/talk-state.ts';
import { heardAt, recordedAt, talkLength } from '../../../core/talk/talk-time.ts';
import { seeded } from '../../support/seeded.ts';
import { frame, line, pane, sampleTalk, shapeId } from './sample-talk.ts';

const cut = (from: number, to: number): TalkEdit => ({ kind: 'cut', spans: [{ from, to }] });

describe('time', () => {
  test('a cut shortens the talk-through by what was cut, wherever it lies', () => {
    const random = seeded(11);
    for (let round = 0; round < 200; round++) {
      let talk = sampleTalk();
      for (let step = 0; step < 5; step++) {
        const length = talkLength(talk);
        const from = Math.floor(random() * length);
        const to = Math.min(length, from + 1 + Math.floor(random() * 2000));
        const after = edited(talk, cut(from, to));
        if (to - from < length) expect(talkLength(after)).toBe(length - (to - from));
        talk = after;
      }
    }
  });

  test('several silences go at once, each as it lay before any was cut', () => {
    const spans = [
      { from: 0, to: 500 },
      { from: 2000, to: 3000 },
      { from: 9000, to: 10_000 },
    ];
    const talk = edited(sampleTalk(), { kind: 'cut', spans });
    expect(talk.pieces).toEqual([
      { take: 0, from: 500, to: 2000 },
      { take: 0, from: 3000, to: 9000 },
    ]);
  });

  test('before a cut all is seen as before, and after it as it was that much later', () => {
    const talk = sampleTalk();
    const after = edited(talk, cut(2500, 6500));
    for (let time = 0; time < 2500; time += 50) expect(stateAt(after, time)).toEqual(stateAt(talk, time));
    for (let time = 2500; time <= 6000; time += 50) expect(stateAt(after, time)).toEqual(stateAt(talk, time + 4000));
  });

  test('where two parts meet the later one begins; the end belongs to the last; outside is nothing', () => {
    const talk = edited(sampleTalk(), cut(2000, 3000));
    expect(recordedAt(talk, 1999)).toMatchObject({ piece: 0, at: 1999 });
    expect(recordedAt(talk, 2000)).toMatchObject({ piece: 1, at: 3000 });
    expect(recordedAt(talk, 9000)).toMatchObject({ piece: 1, at: 10_000 });
    expect([recordedAt(talk, -1), recordedAt(talk, 9001)]).toEqual([null, null]);
    expect([heardAt(talk, 0, 1500), heardAt(talk, 0, 2500), heardAt(talk, 0, 3500)]).toEqual([1500, null, 2500]);
  });

  test('a cut of everything is refused: then there would be nothing to see', () => {
    const talk = sampleTalk();
    expect(edited(talk, cut(0, 10_000))).toBe(talk);
  });
});

describe('retake', () => {
  test('what stands before it stays, the new take follows, and nothing of the old one is seen in it', () => {
    const talk = edited(sampleTalk(), { kind: 'retake', from: 3500, take: 1 });
    expect(talkLength(talk)).toBe(3500 + 4000);
    expect(stateAt(talk, 3499)).toEqual(stateAt(sampleTalk(), 3499));
    expect(stateAt(talk, 3500)).toMatchObject({ panes: [pane(20)], drawings: [], caption: '' });
  });

  test('from the beginning it is all of the talk-through', () => {
    const talk = edited(sampleTalk(), { kind: 'retake', from: 0, take: 1 });
    expect(talk.pieces).toEqual([{ take: 1, from: 0, to: 4000 }]);
  });

  test('a take that is not there changes nothing', () => {
    const talk = sampleTalk();
    expect(edited(talk, { kind: 'retake', from: 0, take: 7 })).toBe(talk);
  });
});

describe('drawings and frames', () => {
  test('a drawing that is moved is elsewhere for as long as it is seen, and comes when it came', () => {
    const talk = edited(sampleTalk(), { kind: 'move-drawing', shape: line(1, 77) });
    expect(stateAt(talk, 1999)?.drawings).toEqual([]);
    expect(stateAt(talk, 2000)?.drawings.map(({ shape }) => shape)).toEqual([line(1, 77)]);
    expect(stateAt(talk, 7000)?.drawings.map(({ shape }) => shape)).toEqual([line(1, 77), line(2)]);
  });

  test('a drawing that is removed is never seen; others stay', () => {
    const talk = edited(sampleTalk(), { kind: 'remove-drawing', shape: shapeId(1) });
    for (let time = 0; time <= 10_000; time += 500)
      expect(stateAt(talk, time)?.drawings.map(({ shape }) => shape.id)).toEqual(time < 6000 ? [] : [shapeId(2)]);
    expect(drawnMarks(talk)).toEqual(new Set([shapeId(2)]));
  });

  test('a frame is swapped for as long as it was shown, in its picture alone', () => {
    const talk = edited(sampleTalk(), { kind: 'swap-frame', at: 5000, pane: 0, frame: frame(5) });
    const shown = (time: number) => stateAt(talk, time)?.panes.map((each) => each.frame.index);
    expect([shown(2999), shown(3000), shown(8999), shown(9000)]).toEqual([
      [1, 0],
      [5, 0],
      [5, 0],
      [9, 0],
    ]);
  });

  test('words are said in the place of those that begin at the same time, else beside them', () => {
    const at500 = edited(sampleTalk(), { kind: 'caption', at: 500, text: 'Other words.' });
    expect(stateAt(at500, 600)?.caption).toBe('Other words.');
    const at700 = edited(sampleTalk(), { kind: 'caption', at: 700, text: 'More.' });
    expect([stateAt(at700, 600)?.caption, stateAt(at700, 700)?.caption]).toEqual(['Here you stand well.', 'More.']);
  });
});

test('two edits and their undo give the same talk-through; no edit changes the one it was made on', () => {
  const edits: readonly TalkEdit[] = [
    cut(1000, 2000),
    { kind: 'retake', from: 3000, take: 1 },
    { kind: 'move-drawing', shape: line(1, 99) },
    { kind: 'remove-drawing', shape: shapeId(2) },
    { kind: 'swap-frame', at: 0, pane: 1, frame: frame(8) },
    { kind: 'caption', at: 400, text: 'Well.' },
    { kind: 'chapter', at: 400, title: 'Posture' },
    { kind: 'closing', closing: { thoughts: [], drill: null } },
  ];
  const talk = sampleTalk();
  for (const one of edits)
    for (const two of edits) {
      const both = editedBy(talk, [one, two]);
      expect(both).toEqual(edited(edited(talk, one), two));
      expect(editedBy(talk, [one, two].slice(0, 1))).toEqual(edited(talk, one));
      expect(editedBy(talk, [])).toBe(talk);
    }
  expect(talk).toEqual(sampleTalk());
});

test('changes come in order, each other than the one before, and say what is seen between them', () => {
  const talk = editedBy(sampleTalk(), [cut(2500, 6500), { kind: 'retake', from: 4000, take: 1 }]);
  const changes = changesOf(talk);
  expect(changes[0]?.at).toBe(0);
  for (const [index, { at, state }] of changes.entries()) {
    expect(at).toBeGreaterThan(changes[index - 1]?.at ?? -1);
    const until = changes[index + 1]?.at ?? talkLength(talk);
    for (const time of [at, (at + until) >> 1, until - 1]) expect(stateAt(talk, time)).toEqual(state);
  }
});
