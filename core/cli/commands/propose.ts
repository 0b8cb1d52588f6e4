import { proposeClip } from '../../jobs/propose-clip.ts';
import type { JobContext } from '../../jobs/job-context.ts';
import { proposePoints, type PointsOrder } from '../../jobs/propose-points.ts';
import { readVerifiedIndex } from '../../jobs/verified-index.ts';
import { followThing, type FollowOrder } from '../../jobs/follow-thing.ts';
import type { FollowedThing } from '../../model/followed.ts';
import { PATH_SUBJECTS } from '../../model/mark.ts';
import type { ProposedSwing } from '../../model/proposal.ts';
import type { AskedFrame, ProposedPoints, SeenPoints } from '../../model/proposed-points.ts';
import { CHECKPOINT_LABELS, CHECKPOINTS, HANDEDNESS, VIEWS } from '../../model/words.ts';
import type { Ffmpeg } from '../../video/process/find-ffmpeg.ts';
import { AppError } from '../../model/errors.ts';
import { findFfmpeg } from '../../video/process/find-ffmpeg.ts';
import type { Command } from '../command.ts';
import { columns } from '../table.ts';

/** `baybook propose CLIP...`: which frames may be address, takeaway, top and impact. */
export const proposeCommand: Command = {
  name: 'propose',
  summary: 'Look through clips for the swing and say which frames may be address, takeaway, top and impact.',
  operands: { shown: 'CLIP...', least: 1, most: 1000 },
  options: {
    view: {
      type: 'string',
      value: 'VIEW',
      help: 'where the camera stood, down-the-line or face-on: names body points too',
    },
    hand: { type: 'string', value: 'HAND', help: 'the hand the player plays with, right or left; right when left out' },
    follow: {
      type: 'string',
      value: 'WHAT,FRAME,X,Y',
      help: `follow a thing from a place on: ${PATH_SUBJECTS.join(', ')}; frame and pixels`,
    },
    json: { type: 'boolean', help: 'print JSON, an object a clip' },
  },
  details: [
    'One swing a clip, from a camera that stands still. Impact is the last frame with the ball at rest; without a ball',
    'that is seen to go it is unsure. Address is the last frame before the club moves for good, takeaway the first with',
    'the shaft level; left out where the club is not seen well enough. Nothing is written.',
    'With --view the joints on those frames are looked for as well, by a pose model on this computer: how many, or with',
    '--json where: "points": {frame: {point: {"x", "y", "guess"}}}, pixels, guess a standard deviation.',
    'With --follow also {"followed": {"places": [{"frame", "x", "y"}], "lost"}}: frame by frame until it is lost, and',
    'why; null at the end of the clip.',
    'With --json each object is {"clip", "proposed", "points", "followed"} or {"clip", "why"}.',
  ],
  async run(args, { out, say, signal }) {
    const ffmpeg = await findFfmpeg();
    const who = playerOf(args.text('view'), args.text('hand'));
    const thing = thingOf(args.text('follow'));
    for (const clip of args.operands) {
      const index = await readVerifiedIndex(clip, { ffmpeg, signal });
      const run = { signal, report: () => undefined };
      const found = await proposeClip({ path: clip, index }, ffmpeg, run);
      const frames = typeof found === 'string' || who === null ? [] : namedFrames(found);
      const seen = who === null ? [] : await pointsOn(frames, { path: clip, index, ...who }, ffmpeg, run);
      const followed = thing === null ? null : await followFrom(thing, { path: clip, index }, ffmpeg, run);
      if (args.has('json')) {
        const points = who === null ? {} : { points: Object.fromEntries(seen) };
        const more = { ...points, ...(followed === null ? {} : { followed }) };
        out(JSON.stringify({ clip, ...(typeof found === 'string' ? { why: found } : { proposed: found }), ...more }));
        continue;
      }
      if (args.operands.length > 1) out(`${clip}:`);
      if (typeof found === 'string') say(WHY[found]);
      else for (const line of columns(rowsOf(found))) out(line);
      for (const [frame, points] of seen)
        out(`frame ${String(frame)}: ${String(Object.keys(points).length)} body points`);
      if (thing !== null && followed !== null) out(followedWords(thing, followed));
    }
  },
};

type Thing = Pick<FollowOrder, 'subject' | 'frame' | 'at'>;

/** What is followed, as the option says; null: nothing is. */
function thingOf(text: string | undefined): Thing | null {
  if (text === undefined) return null;
  const [what, ...numbers] = text.split(',');
  const subject = PATH_SUBJECTS.find((each) => each === what);
  const [frame = NaN, x = NaN, y = NaN] = numbers.map((each) => (each.trim() === '' ? NaN : Number(each)));
  const isRight =
    numbers.length === 3 && Number.isInteger(frame) && frame >= 0 && Number.isFinite(x) && Number.isFinite(y);
  if (subject === undefined || !isRight)
    throw new AppError(
      'bad-arguments',
      `--follow takes ${PATH_SUBJECTS.join(', ')} and then frame, x and y, e.g. hands,60,183,316.`,
    );
  return { subject, frame, at: { x, y } };
}

function followFrom(
  thing: Thing,
  clip: Pick<FollowOrder, 'path' | 'index'>,
  ...how: [Ffmpeg, JobContext]
): Promise<FollowedThing> {
  const until = clip.index.frames.length - 1;
  if (thing.frame >= until)
    throw new AppError(
      'no-such-frame',
      `Nothing comes after frame ${String(thing.frame)}; the last is ${String(until)}.`,
    );
  return followThing({ ...thing, ...clip, until }, ...how);
}

function followedWords({ subject, frame }: Thing, { places, lost }: FollowedThing): string {
  const end = places.at(-1)?.frame ?? frame;
  return `${subject}: followed to frame ${String(end)}${lost === null ? '' : `, then lost: ${lost}`}`;
}

/** Who is seen, as the options say; null: no body points are asked for. */
function playerOf(view: string | undefined, hand: string | undefined): Player | null {
  if (view === undefined && hand === undefined) return null;
  const [seenFrom, handedness] = [
    VIEWS.find((each) => each === view),
    HANDEDNESS.find((each) => each === (hand ?? 'right')),
  ];
  if (seenFrom === undefined) throw new AppError('bad-arguments', `--view takes ${VIEWS.join(' or ')}.`);
  if (handedness === undefined) throw new AppError('bad-arguments', `--hand takes ${HANDEDNESS.join(' or ')}.`);
  return { view: seenFrom, handedness };
}

type Player = Pick<PointsOrder, 'view' | 'handedness'>;

function namedFrames(found: ProposedSwing): readonly AskedFrame[] {
  const named = (['address', 'top', 'impact'] as const).map((checkpoint) => ({
    frame: found[checkpoint].frame,
    checkpoint,
  }));
  return named.filter(({ frame }, at) => named.findIndex((other) => other.frame === frame) === at);
}

async function pointsOn(
  frames: readonly AskedFrame[],
  clip: Omit<PointsOrder, 'frames'>,
  ...how: [Ffmpeg, JobContext]
): Promise<readonly (readonly [number, SeenPoints])[]> {
  const found = frames.length === 0 ? [] : await proposePoints({ ...clip, frames }, ...how);
  const plain = (points: ProposedPoints): SeenPoints =>
    Object.fromEntries(Object.entries(points).map(([point, { x, y, guess }]) => [point, { x, y, guess }]));
  return frames.map(({ frame }, at) => [frame, plain(found[at] ?? {})]);
}

const WHY = {
  'nothing swings': 'No swing is seen in this clip.',
  'all moves': 'Too much moves in this clip to tell a swing; film from a stand.',
} as const;

function rowsOf(found: ProposedSwing): string[][] {
  const rows = CHECKPOINTS.flatMap((checkpoint) => {
    const proposed = checkpoint in found ? found[checkpoint as keyof ProposedSwing] : null;
    if (proposed === null) return [];
    return [[CHECKPOINT_LABELS[checkpoint], String(proposed.frame), proposed.sure ? 'sure' : 'unsure', proposed.by]];
  });
  return [['checkpoint', 'frame', 'how sure', 'by'], ...rows];
}
