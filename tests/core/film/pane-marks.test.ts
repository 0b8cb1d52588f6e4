import { expect, test } from 'vitest';
import { paneMarks } from '../../../core/film/pane-marks.ts';
import { EMPTY_GOALS } from '../../../core/measure/goals/goals.ts';
import { reportOf } from '../../../core/report/lesson-report.ts';
import { NOTHING_SHOWN, pointKey, type TalkState } from '../../../core/talk/talk-state.ts';
import { inventedSwing } from '../measure/invented-swing.ts';

test('a body point that is placed while talking, and what is read from it, are seen from then on and not before', () => {
  const now = inventedSwing();
  const report = reportOf({ now, then: null, goals: EMPTY_GOALS });
  const clip = now.clips.find(({ view }) => view === 'down-the-line');
  const frame = clip?.checkpoints.top;
  const place = clip?.marks.find((each) => each.frame.index === frame?.index)?.points.tailbone;
  if (clip === undefined || frame === undefined || place === undefined) throw new Error('no tailbone at the top');
  const reading = report.now.find(
    (each) => each.id === 'back-incline' && each.checkpoint === 'top' && each.view === clip.view,
  );
  if (reading?.state !== 'measured') throw new Error('nothing is read from it');
  expect(reading.from.map(({ point }) => point)).toContain('tailbone');
  const name = {
    which: 'now',
    view: clip.view,
    frame: { index: frame.index, pts: frame.pts },
    point: 'tailbone',
  } as const;
  const pane = { ...name, part: null };
  const state: TalkState = { ...NOTHING_SHOWN, panes: [pane], marks: { shown: true, readings: [reading] } };
  const seen = (points: TalkState['points'], drawn: ReadonlySet<string>) =>
    paneMarks(pane, { ...state, points }, report, drawn);
  const placed = new Set([pointKey(name)]);
  const [own, before, after] = [seen([], new Set()), seen([], placed), seen([{ ...name, place }], placed)];
  expect(after).toEqual(own);
  expect(before.length).toBeLessThan(own.length);
  const at = JSON.stringify({ x: place.x, y: place.y }).slice(1, -1);
  expect([before, after].map((items) => JSON.stringify(items).includes(at))).toEqual([false, true]);
  // Where it was moved since, it is seen where it was then.
  const moved = seen([{ ...name, place: { ...place, x: place.x + 9 } }], placed);
  expect(JSON.stringify(moved)).toContain(`"x":${String(place.x + 9)}`);
});
