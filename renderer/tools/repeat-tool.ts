import type { BodyPointId } from '../../core/model/body-points.ts';
import type { FrameMarks, PicturePoint } from '../../core/model/mark.ts';
import type { NewRepeatCheck, RepeatChoice, RepeatShowing } from '../../core/model/repeat-check.ts';
import { HIDDEN_KEY } from './keys.ts';
import { stepTool } from './step-tool.ts';
import type { Target } from './target.ts';
import { idle } from './tool.ts';
import type { ToolEvent, ToolScene, ToolState } from './tool.ts';

/**
 * A repeat check under way. Each showing of a frame begins bare; on it the points tool of the bench places the chosen
 * points one after another, from no start: where a point stood before is what must not be seen.
 */
export interface RepeatRound {
  readonly choices: readonly RepeatChoice[];
  readonly showings: readonly RepeatShowing[];
  /** Which showing it is at; as many as there are showings once all is placed. */
  readonly at: number;
  /** What was placed in each showing so far. */
  readonly placed: readonly FrameMarks['points'][];
  readonly tool: ToolState;
  /** The points of this showing while a gesture runs. */
  readonly draft: FrameMarks['points'] | null;
  readonly selected: Target | null;
  /** The point that was asked for again by going back, or null to go on with the next that is missing. */
  readonly asked: BodyPointId | null;
}

export function beginRepeat(choices: readonly RepeatChoice[], showings: readonly RepeatShowing[]): RepeatRound {
  const placed = showings.map(() => ({}));
  return { choices, showings, at: 0, placed, tool: idle('points'), draft: null, selected: null, asked: null };
}

/** The frame that is shown, or null once all is placed. */
export function choiceShown({ choices, showings, at }: RepeatRound): RepeatChoice | null {
  const showing = showings[at];
  return showing === undefined ? null : (choices[showing.choice] ?? null);
}

/** What is placed on the frame that is shown, without any draft. */
export function placedHere({ placed, at }: RepeatRound): FrameMarks['points'] {
  return placed[at] ?? {};
}

/** The body point that a press places now; null when the frame that is shown has all of its points. */
export function pointWanted(run: RepeatRound): BodyPointId | null {
  const here = placedHere(run);
  return run.asked ?? choiceShown(run)?.points.find((point) => here[point] === undefined) ?? null;
}

/** How many points are placed, of how many. */
export function progressOf({ choices, showings, placed }: RepeatRound): { readonly done: number; readonly of: number } {
  return {
    done: placed.reduce((sum, points) => sum + Object.keys(points).length, 0),
    of: showings.reduce((sum, { choice }) => sum + (choices[choice]?.points.length ?? 0), 0),
  };
}

export interface RepeatStep {
  readonly run: RepeatRound;
  readonly used: boolean;
}

/**
 * What an event makes of the run. The last point of a frame, put down by the pointer, brings the next frame; put there
 * by a key it waits for Enter, since it has to be moved first. Backspace goes back one point, over frames too. `reach`
 * and `centre` as for any tool.
 */
export function stepRepeat(run: RepeatRound, event: ToolEvent, reach: number, centre: PicturePoint): RepeatStep {
  const choice = choiceShown(run);
  if (choice === null) return { run, used: false };
  const key = event.type === 'key' ? event.key : null;
  // Whether a point is hidden was said when it was marked, and hidden ones are not asked for.
  if (key?.toLowerCase() === HIDDEN_KEY) return { run, used: false };
  const here = placedHere(run);
  const marks: FrameMarks = { frame: choice.frame, points: here, shapes: [] };
  const next = pointWanted(run);
  if (run.tool.name === 'idle' && key === 'Enter' && next === null) return { run: goOn(run), used: true };
  if (run.tool.name === 'idle' && key === 'Backspace' && Object.keys(here).length === 0)
    return { run: goBack(run), used: run.at > 0 };
  const scene: ToolScene = {
    ...{ marks, selected: run.selected, reach, centre, next, newId: '' },
    run: choice.points,
    starts: {},
    path: { subject: 'clubhead', home: marks, shape: null, pts: choice.frame.pts },
    ground: { plan: null, home: marks, shape: null },
  };
  const step = stepTool(run.tool, event, scene);
  if (!step.used) return { run, used: false };
  const points = step.commit?.points ?? here;
  const stepped: RepeatRound = {
    ...run,
    placed: run.placed.map((each, at) => (at === run.at ? points : each)),
    tool: step.state,
    draft: step.draft?.points ?? null,
    selected: step.selected,
    asked: step.ask ?? (run.asked !== null && points[run.asked] !== undefined ? null : run.asked),
  };
  const isWhole = step.commit !== null && choice.points.every((point) => points[point] !== undefined);
  return { run: isWhole && event.type === 'up' ? goOn(stepped) : stepped, used: true };
}

function goOn(run: RepeatRound): RepeatRound {
  return { ...run, at: run.at + 1, tool: idle('points'), draft: null, selected: null, asked: null };
}

/** To the frame before, with its last point taken away. */
function goBack(run: RepeatRound): RepeatRound {
  if (run.at === 0) return run;
  const before = { ...run, at: run.at - 1, tool: idle('points'), draft: null, selected: null, asked: null };
  const here = placedHere(before);
  const last = choiceShown(before)?.points.findLast((point) => here[point] !== undefined);
  const kept = Object.fromEntries(Object.entries(here).filter(([point]) => point !== last));
  return { ...before, placed: run.placed.map((each, at) => (at === before.at ? kept : each)) };
}

/**
 * The finished check: for each point the place that was marked (`marked`) and that of each round. Of one that was left
 * half way, or whose marks are gone, it is null.
 */
export function finishedCheck(
  run: RepeatRound,
  marked: (choice: RepeatChoice) => FrameMarks['points'],
): NewRepeatCheck['frames'] | null {
  let whole = true;
  const frames = run.choices.map((choice, place) => {
    const rounds = run.showings
      .flatMap(({ choice: of, round }, at) => (of === place ? [{ round, points: run.placed[at] ?? {} }] : []))
      .sort((a, b) => a.round - b.round);
    const placings: Partial<Record<BodyPointId, readonly PicturePoint[]>> = {};
    for (const point of choice.points) {
      const places = [marked(choice), ...rounds.map(({ points }) => points)].map((points) => points[point]);
      whole &&= places.length > 1 && places.every((each) => each !== undefined);
      placings[point] = places.flatMap((each) => (each === undefined ? [] : [{ x: each.x, y: each.y }]));
    }
    return { clipId: choice.clipId, frame: { index: choice.frame.index, pts: choice.frame.pts }, placings };
  });
  return whole && run.at === run.showings.length && frames.length > 0 ? frames : null;
}
