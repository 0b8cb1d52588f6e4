import type { Shape } from '../../../core/model/mark.ts';
import type { Talk, TalkEvent, TalkPane, TalkTake } from '../../../core/model/talk.ts';

export const shapeId = (last: number): string => `22222222-1111-4111-8111-${String(last).padStart(12, '0')}`;
export const frame = (index: number) => ({ index, pts: index * 512 });
export const pane = (index: number, change: Partial<TalkPane> = {}): TalkPane => ({
  ...{ which: 'now', view: 'down-the-line', frame: frame(index), part: null },
  ...change,
});
export const line = (id: number, x = 10): Shape => ({
  ...{ kind: 'line', id: shapeId(id), a: { x, y: 0 }, b: { x: x + 5, y: 100 }, role: null, lengthMm: null },
});
export const draw = (at: number, id: number, x = 10): TalkEvent => ({
  ...{ at, kind: 'draw', which: 'now', view: 'down-the-line', frame: frame(4), shape: line(id, x) },
});

/** Ten seconds: frames at each second, a line at 2 s, another at 6 s, words, and two findings. */
export const firstTake: TalkTake = {
  length: 10_000,
  sound: { file: 'take-1.wav', start: 0 },
  events: [
    { at: 0, kind: 'show', panes: [pane(0), pane(0, { view: 'face-on' })] },
    { at: 500, kind: 'caption', text: 'Here you stand well.' },
    { at: 1000, kind: 'frame', pane: 0, frame: frame(1) },
    { at: 1000, kind: 'chapter', title: 'Your back' },
    draw(2000, 1),
    { at: 3000, kind: 'frame', pane: 0, frame: frame(3) },
    { at: 3500, kind: 'pointer', place: { pane: 0, x: 30, y: 40 } },
    { at: 3600, kind: 'pointer', place: null },
    { at: 4000, kind: 'zoom', pane: 1, part: { x: 1, y: 2, width: 30, height: 40 } },
    { at: 5000, kind: 'caption', text: '' },
    draw(6000, 2),
    { at: 7000, kind: 'chapter', title: 'Your hands' },
    { at: 8000, kind: 'erase', shape: shapeId(1) },
    { at: 9000, kind: 'frame', pane: 0, frame: frame(9) },
  ],
};
const secondTake: TalkTake = {
  length: 4000,
  sound: { file: 'take-2.wav', start: 120 },
  events: [
    { at: 0, kind: 'show', panes: [pane(20)] },
    { at: 1500, kind: 'frame', pane: 0, frame: frame(21) },
    {
      at: 2000,
      kind: 'marks',
      shown: false,
      readings: [{ id: 'hip-line', aspect: 'change', view: 'down-the-line', checkpoint: 'top' }],
    },
  ],
};

export const sampleTalk = (): Talk => ({
  takes: [firstTake, secondTake],
  pieces: [{ take: 0, from: 0, to: 10_000 }],
  closing: { thoughts: ['Stay in your posture.'], drill: { title: 'Wall', steps: ['Stand with a wall behind you.'] } },
});
