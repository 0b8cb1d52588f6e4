import { beforeEach, describe, expect, test } from 'vitest';
import type { BodyPointId } from '../../../../core/model/body-points.ts';
import type { FrameMarks } from '../../../../core/model/mark.ts';
import type { PicturePoint } from '../../../../core/model/mark.ts';
import type { NoProposal, ProposedSwing } from '../../../../core/model/proposal.ts';
import type { AskedFrame, ProposedPoints } from '../../../../core/model/proposed-points.ts';
import {
  askForPoint,
  benchClip,
  chooseTool,
  goTo,
  isProposedFrame,
  openBench,
  pointAskedFor,
  runOf,
  sendToTool,
} from '../../../../renderer/bench/state/bench-actions.ts';
import { forgetProposed } from '../../../../renderer/bench/state/forget-proposed.ts';
import { openProposals, proposals } from '../../../../renderer/bench/state/open-proposals.ts';
import { acceptProposal, nameByHand, proposeSwing } from '../../../../renderer/bench/state/proposals.ts';
import { startsFor } from '../../../../renderer/bench/state/starts.ts';
import { app, setApp } from '../../../../renderer/shell/state/app-state.ts';
import { emptyHistory } from '../../../../renderer/swing/state/history.ts';
import { WRITTEN, controlProgram, turn } from '../../controlled-program.ts';
import { clipOf, indexOf, swingOf } from '../../sample-swing.ts';
import { proposedPointAt } from '../../../support/proposed-point.ts';

const FRAMES = 60;
const WANTED = { address: 10, top: 25, impact: 40 } as const;
const NAMES = ['address', 'top', 'impact'] as const;
/** What a pointer takes, pixels; places lie farther apart. */
const REACH = 8;

/** Where a coach puts a point of a frame. */
function belongs(point: BodyPointId, frame: number): PicturePoint {
  const at = [...point].reduce((sum, letter) => sum + letter.charCodeAt(0), 0) % 37;
  return { x: 40 + 20 * at, y: 10 * frame };
}

interface Lesson {
  readonly clips: readonly ('x' | 'y')[];
  readonly from: 'sheet' | 'bench';
  /** The coach wants all points of the run, or two of them. */
  readonly points: 'all' | 'two';
}

/** A frame gets its name before its points or after them; the shorter of the two ways counts. */
const ORDERS = ['name first', 'points first'] as const;
type Order = (typeof ORDERS)[number];

/** A coach who knows what belongs where and takes the shortest way that the window has; each press, drag or key counts one. */
class Coach {
  inputs = 0;
  private readonly order: Order;

  constructor(order: Order) {
    this.order = order;
  }

  async swing({ clips, points }: Lesson): Promise<void> {
    for (const id of clips) {
      if (app.get().bench?.clipId !== id) this.did(() => openBench(id, 0));
      for (const name of NAMES) {
        const frame = WANTED[name];
        if (app.get().bench?.index !== frame) this.did(() => goTo(frame));
        if (this.order === 'name first') this.did(() => nameByHand(id, name, frame));
        const run = runOf(this.clip(), frame);
        for (const point of points === 'all' ? run : run.slice(0, 2)) this.place(point, belongs(point, frame));
        if (this.order === 'points first') this.name(name, frame);
        await turn();
      }
    }
  }

  private place(point: BodyPointId, at: PicturePoint): void {
    const clip = this.clip();
    const { bench } = app.get();
    if (bench === null) throw new Error('the bench is closed');
    const ring = startsFor(clip, bench.index)[point];
    const shows = bench.tool.tool === 'points' || isProposedFrame(clip, bench.index);
    if (bench.tool.tool === 'points' && pointAskedFor(app.get()) === point) return this.drag(at, at);
    if (ring?.guess !== undefined && shows) return this.drag(ring, at);
    if (bench.tool.tool !== 'points') this.did(() => chooseTool('points'));
    if (pointAskedFor(app.get()) !== point) this.did(() => askForPoint(point));
    this.drag(at, at);
  }

  private name(name: (typeof NAMES)[number], frame: number): void {
    const clip = this.clip();
    const [next] = openProposals(clip, proposals.get());
    const placed = clip.marks.find((marks) => marks.frame.index === frame)?.points ?? {};
    const isAllRight = next?.frame !== frame || runOf(clip, frame).every((point) => placed[point] !== undefined);
    if (next?.checkpoint === name && isAllRight) this.did(acceptProposal);
    else this.did(() => nameByHand(clip.id, name, frame));
  }

  private drag(from: PicturePoint, to: PicturePoint): void {
    this.did(() => {
      for (const [type, at] of [
        ['down', from],
        ['move', to],
        ['up', to],
      ] as const)
        sendToTool({ type, at }, REACH, { x: 0, y: 0 });
    });
  }

  private clip() {
    const clip = benchClip(app.get());
    if (clip === null) throw new Error('no clip is on the bench');
    return clip;
  }

  did(what: () => void): void {
    this.inputs += 1;
    what();
  }
}

let program: ReturnType<typeof controlProgram>;
beforeEach(() => {
  program = controlProgram((name) => (name === 'edit/write' ? Promise.resolve({ ok: true, value: WRITTEN }) : null));
});

function begin({ clips, from }: Lesson): void {
  for (const id of ['x', 'y']) forgetProposed(id);
  const size = { width: 1000, height: 1000 };
  const both = {
    x: { ...clipOf('x', FRAMES), ...size },
    y: { ...clipOf('y', FRAMES), ...size, view: 'down-the-line' as const },
  };
  setApp({
    ...{
      swing: swingOf(
        'a',
        clips.map((id) => both[id]),
      ),
      then: null,
      bench: null,
      history: emptyHistory(),
      jobs: [],
    },
    indexes: { x: indexOf(FRAMES), y: indexOf(FRAMES) },
  });
  if (from === 'bench') openBench('x', 0);
}

/** Where points stand; where they had been proposed is kept with them, and is none by hand. */
function placesOf(points: FrameMarks['points']): FrameMarks['points'] {
  return Object.fromEntries(
    Object.entries(points).map(([point, { x, y, hidden, guess }]) => [
      point,
      guess === undefined ? { x, y, hidden } : { x, y, hidden, guess },
    ]),
  );
}

/** What stands in the book after it: names, and points without anything proposed in them. */
function outcome() {
  return app.get().swing?.clips.map(({ checkpoints, marks }) => ({
    names: Object.fromEntries(Object.entries(checkpoints).map(([name, { index }]) => [name, index])),
    points: Object.fromEntries(marks.map(({ frame, points }) => [frame.index, placesOf(points)])),
  }));
}

async function byHand(lesson: Lesson, order: Order): Promise<number> {
  begin(lesson);
  const coach = new Coach(order);
  await coach.swing(lesson);
  return coach.inputs;
}

type Bad = 'nothing' | 'frames' | 'points';
const wrongFrame = (frame: number, bad: Bad) => ({
  frame: bad === 'frames' ? frame + 9 : frame,
  sure: true,
  by: 'motion',
});

/** All joints but club and ball, each where another one belongs. */
function wrongPoints(clip: 'x' | 'y', frame: number): ProposedPoints {
  const view = clip === 'x' ? 'face-on' : 'down-the-line';
  const joints = runOf({ view, checkpoints: {} }, 0).filter(
    (point) => !['grip-end', 'clubhead', 'ball'].includes(point),
  );
  return Object.fromEntries(
    joints.map((point, place) => {
      const { x, y } = belongs(joints[(place + 1) % joints.length] ?? point, frame);
      return [point, proposedPointAt(x, y + 3 * REACH, 4)];
    }),
  );
}

async function withBad(lesson: Lesson, bad: Bad, order: Order): Promise<number> {
  begin(lesson);
  const coach = new Coach(order);
  let run = Promise.resolve();
  coach.did(() => {
    run = proposeSwing({ id: 'x' });
  });
  for (const id of lesson.clips) {
    const found: ProposedSwing | NoProposal =
      bad === 'nothing'
        ? 'nothing swings'
        : {
            address: wrongFrame(WANTED.address, bad),
            takeaway: null,
            top: wrongFrame(WANTED.top, bad),
            impact: wrongFrame(WANTED.impact, bad),
          };
    await program.next('clip/propose').answer<'clip/propose'>(found);
    if (typeof found === 'string') continue;
    const asked = program.next('clip/propose-points');
    const { frames } = asked.input as { readonly frames: readonly AskedFrame[] };
    await asked.answer<'clip/propose-points'>(frames.map(({ frame }) => wrongPoints(id, frame)));
    await turn();
  }
  await run;
  await coach.swing(lesson);
  return coach.inputs;
}

const BADS: readonly Bad[] = ['nothing', 'frames', 'points'];
const LESSONS: readonly Lesson[] = (['sheet', 'bench'] as const).flatMap((from) =>
  (['all', 'two'] as const).flatMap((points) => [
    { clips: ['x', 'y'] as const, from, points },
    { clips: ['x'] as const, from, points },
  ]),
);

describe('what is proposed wrongly takes no input more than no proposal at all', () => {
  for (const lesson of LESSONS)
    for (const bad of BADS) {
      const clips = lesson.clips.length === 1 ? 'one clip' : 'both views';
      test(`begun on the ${lesson.from}, ${clips}, ${lesson.points} of the points wanted; wrong: ${bad}`, async () => {
        let [hand, proposed] = [Infinity, Infinity];
        for (const order of ORDERS) {
          hand = Math.min(hand, await byHand(lesson, order));
          const wanted = outcome();
          proposed = Math.min(proposed, await withBad(lesson, bad, order));
          expect(outcome()).toEqual(wanted);
        }
        expect(proposed).toBeLessThanOrEqual(hand);
      });
    }
});
