import { beforeEach, describe, expect, test } from 'vitest';
import type { FollowedThing } from '../../../../core/model/followed.ts';
import type { PathPlace, PathShape } from '../../../../core/model/mark.ts';
import { keptMarks, openBench, sendToTool, chooseTool } from '../../../../renderer/bench/state/bench-actions.ts';
import { acceptFollowed, followOn } from '../../../../renderer/bench/state/followed.ts';
import { forgetProposed } from '../../../../renderer/bench/state/forget-proposed.ts';
import { followed, openPlaces } from '../../../../renderer/bench/state/open-places.ts';
import { app, setApp, setBench } from '../../../../renderer/shell/state/app-state.ts';
import { undo } from '../../../../renderer/swing/state/edit-actions.ts';
import { emptyHistory } from '../../../../renderer/swing/state/history.ts';
import { WRITTEN, controlProgram } from '../../controlled-program.ts';
import { clipOf, indexOf, swingOf } from '../../sample-swing.ts';

const FROM: PathPlace = { x: 10, y: 10, pts: 1 };
const shape = (...places: readonly PathPlace[]): PathShape => ({
  kind: 'path',
  id: 'path',
  subject: 'clubhead',
  places,
});
const FOUND: FollowedThing = {
  places: [2, 3, 4].map((frame) => ({ frame, x: 10 * frame, y: 10 })),
  lost: 'looks like nothing there',
};
let program: ReturnType<typeof controlProgram>;

beforeEach(() => {
  program = controlProgram((name) => (name === 'edit/write' ? Promise.resolve({ ok: true, value: WRITTEN }) : null));
  followed.update(() => ({}));
  const marks = { frame: { index: 1, pts: 1 }, points: {}, shapes: [shape(FROM)] };
  const swing = swingOf('a', [{ ...clipOf('x', 9), marks: [marks] }]);
  setApp({ swing, then: null, indexes: { x: indexOf(9) }, bench: null, history: emptyHistory(), jobs: [] });
  openBench('x', 2);
  setBench({ picture: 'exact' });
  chooseTool('path');
});

const clip = () => app.get().swing?.clips[0] ?? clipOf('x');
const path = (): PathShape | null => {
  const found = clip()
    .marks.flatMap(({ shapes }) => shapes)
    .find(({ kind }) => kind === 'path');
  return found?.kind === 'path' ? found : null;
};
const open = () => openPlaces(followed.get()['x'] ?? [], path(), 'clubhead');
const openPts = () => open().places.map(({ pts }) => pts);
const marks = () => keptMarks(app.get()) ?? { frame: { index: 2, pts: 2 }, points: {}, shapes: [] };

async function follow(found = FOUND): Promise<void> {
  const run = followOn(clip(), marks(), 'clubhead');
  await program.next('clip/follow').answer<'clip/follow'>(found);
  await run;
}

describe('a thing that was followed', () => {
  test('is proposed and not on the path; the frame it was lost on comes', async () => {
    await follow();
    expect(path()?.places).toEqual([FROM]);
    expect(openPts()).toEqual([2, 3, 4]);
    expect(open().lost).toEqual({ why: 'looks like nothing there', pts: 5 });
    expect(app.get().bench?.index).toBe(5);
  });

  test('is asked for from the last place before the frame on the bench, as far as the next one', () => {
    const marked = { frame: { index: 1, pts: 1 }, points: {}, shapes: [shape(FROM, { x: 1, y: 1, pts: 7 })] };
    setApp({ swing: swingOf('a', [{ ...clipOf('x', 9), marks: [marked] }]) });
    void followOn(clip(), marks(), 'clubhead');
    const order = { id: 'x', subject: 'clubhead', frame: 1, at: { x: 10, y: 10 }, until: 6 };
    expect(program.next('clip/follow').input).toMatchObject(order);
  });

  test('is accepted in one edit, with the error that such places have, and one step takes all of it back', async () => {
    await follow();
    acceptFollowed(clip(), marks(), 'clubhead');
    expect(path()?.places.map(({ pts }) => pts)).toEqual([1, 2, 3, 4]);
    // Five pixels of 1080 lines, on a picture 50 lines high.
    expect(path()?.places.map(({ guess }) => guess)).toEqual([
      undefined,
      ...new Array<number>(3).fill(5 * (50 / 1080)),
    ]);
    expect(openPts()).toEqual([]);
    undo();
    expect(path()?.places).toEqual([FROM]);
    expect(openPts()).toEqual([2, 3, 4]);
  });

  test('has a wider error the farther hands or a head have come from where they were placed; a clubhead has not', async () => {
    const found = {
      places: [2, 3].map((frame) => ({ frame, x: 10 + 40 * (frame - 1), y: 10 + 30 * (frame - 1) })),
      lost: null,
    };
    const marked = { frame: { index: 1, pts: 1 }, points: {}, shapes: [{ ...shape(FROM), subject: 'hands' as const }] };
    setApp({ swing: swingOf('a', [{ ...clipOf('x', 9), marks: [marked] }]) });
    const run = followOn(clip(), marks(), 'hands');
    await program.next('clip/follow').answer<'clip/follow'>(found);
    await run;
    const places = openPlaces(followed.get()['x'] ?? [], path(), 'hands').places;
    // Eight pixels of 1080 lines on a picture 50 lines high, and a tenth of a way of 50 and of 100 pixels.
    const near = (8 * 50) / 1080;
    expect(places.map(({ guess }) => guess)).toEqual([Math.hypot(near, 5), Math.hypot(near, 10)]);
  });

  test('is accepted frame by frame with Enter; a place elsewhere by hand takes away what was followed after it', async () => {
    await follow();
    setBench({ index: 2 });
    expect(sendToTool({ type: 'key', key: 'Enter' }, 8, { x: 0, y: 0 })).toBe(true);
    expect(app.get().bench?.index).toBe(3);
    expect(openPts()).toEqual([3, 4]);
    setBench({ picture: 'exact' });
    sendToTool({ type: 'down', at: { x: 44, y: 33 } }, 8, { x: 0, y: 0 });
    sendToTool({ type: 'up', at: { x: 44, y: 33 } }, 8, { x: 0, y: 0 });
    expect(path()?.places.at(-1)).toEqual({ x: 44, y: 33, pts: 3 });
    expect(open()).toEqual({ places: [], lost: null });
    await follow({ places: [{ frame: 4, x: 50, y: 30 }], lost: null });
    expect(openPts()).toEqual([4]);
  });

  test('goes when the place that it began from is moved, and when frames are numbered anew', async () => {
    await follow();
    expect(openPlaces(followed.get()['x'] ?? [], shape({ ...FROM, x: 11 }), 'clubhead').places).toEqual([]);
    forgetProposed('x');
    expect(open()).toEqual({ places: [], lost: null });
    const run = followOn(clip(), { ...marks(), frame: { index: 2, pts: 2 } }, 'clubhead');
    setApp({ indexes: { x: indexOf(8) } });
    await program.next('clip/follow').answer<'clip/follow'>(FOUND);
    await run;
    expect(openPts()).toEqual([]);
  });
});
