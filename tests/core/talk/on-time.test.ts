import { expect, test } from 'vitest';
import type { Talk } from '../../../core/model/talk.ts';
import { loudnessOfTalk, soundFrom, timeMarks } from '../../../core/talk/on-time.ts';
import { edited } from '../../../core/talk/talk-edits.ts';
import { frame, pane, sampleTalk } from './sample-talk.ts';

const cut = (talk: Talk, from: number, to: number): Talk => edited(talk, { kind: 'cut', spans: [{ from, to }] });

test('marks stand where frames, drawings, captions and findings change, and where a part was cut', () => {
  expect(timeMarks(sampleTalk()).map(({ at, kind }) => `${String(at)} ${kind}`)).toEqual([
    ...['500 caption', '1000 frame', '1000 chapter', '2000 drawing', '3000 frame', '5000 caption', '6000 drawing'],
    ...['7000 chapter', '8000 drawing', '9000 frame'],
  ]);
  expect(timeMarks(cut(sampleTalk(), 2500, 2900))).toContainEqual({ at: 2500, kind: 'cut' });
});

test('frames that are played are one change, at the first of them', () => {
  const played = Array.from({ length: 30 }, (_, step) => ({
    ...({ kind: 'frame', pane: 0 } as const),
    ...{ at: 1000 + step * 33, frame: frame(step + 1) },
  }));
  const events = [{ at: 0, kind: 'show', panes: [pane(0)] } as const, ...played];
  const talk: Talk = {
    takes: [{ length: 5000, sound: null, events }],
    pieces: [{ take: 0, from: 0, to: 5000 }],
    closing: { thoughts: [], drill: null },
  };
  expect(timeMarks(talk)).toEqual([{ at: 1000, kind: 'frame' }]);
});

test('the loudness of what is left after a cut is that of what was recorded there', () => {
  const recorded = Float32Array.from({ length: 500 }, (_, step) => step);
  const loudness = loudnessOfTalk(cut(sampleTalk(), 2000, 4000), (take) => (take === 0 ? recorded : undefined));
  expect(loudness).toHaveLength(400);
  expect([loudness[0], loudness[99], loudness[100], loudness[399]]).toEqual([0, 99, 200, 499]);
  expect([...loudnessOfTalk(sampleTalk(), () => undefined)].every((value) => value === 0)).toBe(true);
});

test('from any time on all that is left is heard once, in its order, in short parts', () => {
  const talk = edited(cut(sampleTalk(), 2500, 6500), { kind: 'retake', from: 5000, take: 1 });
  for (const from of [0, 1234, 2500, 5100, 8999]) {
    let at = from;
    for (const part of soundFrom(talk, from, 700)) {
      expect(part.at).toBe(at);
      expect(part.to - part.from).toBeLessThanOrEqual(700);
      at += part.to - part.from;
    }
    expect(at).toBe(9000);
  }
  expect(soundFrom(talk, 2400, 700).slice(0, 2)).toEqual([
    { take: 0, from: 2400, to: 2500, at: 2400 },
    { take: 0, from: 6500, to: 7200, at: 2500 },
  ]);
  expect(soundFrom(talk, 9000, 700)).toEqual([]);
});
