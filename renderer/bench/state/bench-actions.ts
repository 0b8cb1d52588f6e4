import { lowered, say } from '../../../core/model/say.ts';
import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { FrameRef } from '../../../core/model/frame.ts';
import type { FrameMarks, PathSubject, PicturePoint } from '../../../core/model/mark.ts';
import type { ReadingKey } from '../../../core/model/reading.ts';
import { carriedTo } from '../../../core/model/swing.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS } from '../../../core/model/words.ts';
import type { Checkpoint } from '../../../core/model/words.ts';
import { withHeadBox } from '../../tools/change-marks.ts';
import type { GroundScene } from '../../tools/ground-tool.ts';
import { pick } from '../../tools/pick.ts';
import type { PathScene } from '../../tools/path-tool.ts';
import { nextPoint, pointsOfView } from '../../tools/points-tool.ts';
import { stepTool } from '../../tools/step-tool.ts';
import { targetExists } from '../../tools/target.ts';
import type { Target } from '../../tools/target.ts';
import { idle } from '../../tools/tool.ts';
import type { ToolEvent, ToolName, ToolState, ToolStep } from '../../tools/tool.ts';
import { app, newBench, setApp, setBench } from '../../shell/state/app-state.ts';
import type { AppState, BenchState } from '../../shell/state/app-state.ts';
import { keepMarks } from '../../swing/state/edit-actions.ts';
import { inNextLook } from './drawing-look.ts';
import { groundPlan } from './ground-plan.ts';
import { followed, openPlaces } from './open-places.ts';
import { tellDone } from '../../shell/state/messages.ts';
import { withPlace } from '../../shell/state/route.ts';
import { openProposals, proposals } from './open-proposals.ts';
import { openOnNamed } from './proposed-points.ts';
import { startsFor } from './starts.ts';
import { marksOn } from '../../swing/state/swing-edit.ts';
import { changedTargets, forgetUnseen, noteUnseen } from '../../swing/state/unseen-marks.ts';

/** Brings a frame to the bench, keeping the tool in hand. `looksFor`: the checkpoint that is to be found there. */
export function openBench(clipId: string, index: number, looksFor: Checkpoint | null = null): void {
  const { bench } = app.get();
  const opened = newBench(clipId, index);
  const { tool, follows } =
    bench === null ? opened : { tool: idle(bench.resumes ?? bench.tool.tool), follows: bench.follows };
  const picture = bench?.clipId === clipId && bench.index === index ? bench.picture : opened.picture;
  const route = withPlace(app.get().route, 'bench');
  setApp({ route, comparing: null, bench: { ...opened, tool, follows, looksFor, picture } });
}

/** Back to the lesson sheet. */
export function closeBench(): void {
  setApp({ route: withPlace(app.get().route, 'sheet'), bench: null, comparing: null });
}

export function benchClip(state: AppState): BookClip | null {
  return state.swing?.clips.find((clip) => clip.id === state.bench?.clipId) ?? null;
}

/** The frame on the bench, or null when it is not in the clip. */
export function benchFrame(state: AppState): FrameRef | null {
  if (state.bench === null) return null;
  const shown = state.indexes[state.bench.clipId]?.frames[state.bench.index];
  return shown === undefined ? null : { index: state.bench.index, pts: shown.pts };
}

/** The marks that are kept of the frame on the bench. */
export function keptMarks(state: AppState): FrameMarks | null {
  const clip = benchClip(state);
  const frame = benchFrame(state);
  return clip === null || frame === null ? null : marksOn(clip, frame);
}

/** The path with its place on this frame that it was followed to and nobody has said so. */
function withProposed(clip: BookClip, path: PathScene): PathScene {
  const { places } = openPlaces(followed.get()[clip.id] ?? [], path.shape, path.subject);
  return { ...path, proposed: places.find(({ pts }) => pts === path.pts) };
}

/** The path that is followed on the clip, and the marks that keep it. */
export function pathScene(clip: BookClip, marks: FrameMarks, subject: PathSubject): PathScene {
  for (const home of clip.marks)
    for (const shape of home.shapes)
      if (shape.kind === 'path' && shape.subject === subject) return { subject, home, shape, pts: marks.frame.pts };
  return { subject, home: marks, shape: null, pts: marks.frame.pts };
}

/** What the ground tool clicks on the clip, and the ground marks that it has. */
export function groundScene(clip: BookClip, marks: FrameMarks): GroundScene {
  const plan = groundPlan.get().plan;
  for (const home of clip.marks)
    for (const shape of home.shapes) if (shape.kind === 'ground') return { plan, home, shape };
  return { plan, home: marks, shape: null };
}

/** Follows another thing with the path tool. */
export function follow(follows: PathSubject): void {
  setBench({ follows, tool: idle('path'), selected: null, draft: null, shownReading: null });
}

/** Goes to a frame; beyond an end it stops at the end. A gesture that runs is cancelled. */
export function goTo(index: number): void {
  const { bench, indexes } = app.get();
  if (bench === null) return;
  const count = indexes[bench.clipId]?.frames.length ?? 1;
  const wanted = Math.min(count - 1, Math.max(0, Math.round(index)));
  if (wanted === bench.index) return;
  setBench({
    index: wanted,
    picture: 'coming',
    blind: false,
    tool: idle(bench.resumes ?? bench.tool.tool),
    resumes: null,
    draft: null,
    selected: null,
    asked: null,
    shownReading: null,
  });
}

export function stepBy(frames: number): void {
  const { bench } = app.get();
  if (bench !== null) goTo(bench.index + frames);
}

/** Goes to the nearest named frame before (-1) or after (+1) this one, if there is one. */
export function goToNamed(direction: -1 | 1): void {
  const clip = benchClip(app.get());
  const at = app.get().bench?.index ?? 0;
  const frames = CHECKPOINTS.flatMap((checkpoint) => clip?.checkpoints[checkpoint]?.index ?? []);
  const ahead = frames.filter((frame) => (frame - at) * direction > 0);
  if (ahead.length > 0) goTo(direction > 0 ? Math.min(...ahead) : Math.max(...ahead));
}

export function chooseTool(tool: ToolName): void {
  const { bench } = app.get();
  if (bench === null) return;
  setBench({ tool: idle(tool), resumes: null, draft: null, selected: tool === 'move' ? bench.selected : null });
}

/** Ends a running gesture without keeping anything; the selection stays. */
export function cancelGesture(): void {
  const { bench } = app.get();
  if (bench === null || bench.tool.name === 'idle') return;
  setBench({ tool: idle(bench.resumes ?? bench.tool.tool), resumes: null, draft: null });
}

/** Selects a mark, or none; a placed point that was in hand is let go. */
export function select(selected: Target | null): void {
  const asked = app.get().bench?.asked ?? null;
  const isPlaced = asked !== null && keptMarks(app.get())?.points[asked] !== undefined;
  setBench({ selected, shownReading: null, ...(isPlaced ? { asked: null } : {}) });
}

/** Asks for a body point. One that is placed already is in hand then: the next click moves it. */
export function askForPoint(asked: BodyPointId): void {
  const isPlaced = keptMarks(app.get())?.points[asked] !== undefined;
  const selected = isPlaced ? ({ kind: 'point', point: asked } as const) : null;
  setBench({ tool: idle('points'), asked, selected, draft: null, shownReading: null });
}

export function showReading(shownReading: ReadingKey | null): void {
  setBench({ shownReading });
}

/** The guided run over the body points of a frame, in its order. */
export function runOf(
  { view, checkpoints }: Pick<BookClip, 'view' | 'checkpoints'>,
  frame: number,
): readonly BodyPointId[] {
  return pointsOfView(view, CHECKPOINTS.find((checkpoint) => checkpoints[checkpoint]?.index === frame) ?? null);
}

/** The body point that a press would place now. */
export function pointAskedFor(state: AppState): BodyPointId | null {
  const clip = benchClip(state);
  const marks = keptMarks(state);
  if (clip === null || marks === null || state.bench === null) return null;
  return state.bench.asked ?? nextPoint(runOf(clip, state.bench.index), marks, null);
}

/**
 * Hands an event to the tool in hand. `reach` and `centre` are in picture pixels. Answers whether the tool used it: a key
 * that it did not use may step frames.
 *
 * Hands go before pictures. What is pressed after a step is meant for the frame that was stepped to, and for the point asked
 * for there, also before its picture is on screen. It is taken at once, so that no later press takes its name; what nobody could see is noted as such (unseen-marks.ts). Only a frame that has no picture takes no press.
 */
export function sendToTool(event: ToolEvent, reach: number, centre: PicturePoint): boolean {
  const state = app.get();
  const { bench } = state;
  const marks = keptMarks(state);
  const clip = benchClip(state);
  if (bench === null || marks === null || clip === null) return false;
  if (event.type === 'down' && bench.picture === 'none') {
    tellDone(say`This frame has no picture, so nothing was placed on it.`);
    return false;
  }
  const kept = bench.selected !== null && targetExists(marks, bench.selected) ? bench.selected : null;
  const next = pointAskedFor(state);
  const run = runOf(clip, bench.index);
  const starts = startsFor(clip, bench.index);
  const path = withProposed(clip, pathScene(clip, marks, bench.follows));
  const ground = groundScene(clip, marks);
  const newId = idOfDraft(bench.draft, marks) ?? crypto.randomUUID();
  const offered = isProposedFrame(clip, bench.index) ? starts : {};
  const scene = { marks, selected: kept, reach, newId, run, next, starts, offered, centre, path, ground };
  const step = stepTool(bench.tool, event, scene);
  if (!step.used) return false;
  if (isOfTheHand(event) && bench.picture !== 'coming') forgetUnseen(clip.id, marks.frame.pts);
  const blind = bench.picture === 'coming' || (bench.blind && bench.tool.name !== 'idle');
  if (event.type === 'down' && bench.tool.tool === 'move' && step.selected === null)
    tellOfCarried(clip, marks, event.at, reach);
  // A key that nudges or deletes has drawn nothing; what ends a gesture has.
  const drew = step.commit !== null && isDrawing(bench.tool.tool) && (isPointer(event) || bench.tool.name !== 'idle');
  if (step.commit !== null) {
    if (blind) noteUnseen(clip.id, marks.frame.pts, changedTargets(marksOn(clip, step.commit.frame), step.commit));
    const whole = asHeadBox(clip, marks, drew ? inNextLook(marks, step.commit) : step.commit);
    keepMarks(bench.clipId, whole, heldOn(event, step.selected));
  }
  setBench({
    ...inHandAfter(bench, step.state, drew),
    blind: blind && step.state.name !== 'idle',
    draft: step.draft === null || !isDrawing(bench.tool.tool) ? step.draft : inNextLook(marks, step.draft),
    selected: step.selected,
    asked: step.ask ?? askedAfter(state, marks, step),
    shownReading: null,
  });
  if (step.goBy !== undefined) stepBy(step.goBy);
  return true;
}

/**
 * Whether it is the frame that is proposed next, or one that has its name and waits for its points: these show as dashed rings
 * whichever tool is in hand.
 */
export function isProposedFrame(clip: BookClip, index: number): boolean {
  const marks = keptMarks(app.get());
  if (marks?.frame.index === index && openOnNamed(clip, marks).length > 0) return true;
  return openProposals(clip, proposals.get(), app.get().bench?.looksFor ?? null)[0]?.frame === index;
}

/** The shape that the gesture is drawing keeps its name from the first move until it is kept; null: none is drawn. */
function idOfDraft(draft: FrameMarks | null, kept: FrameMarks): string | null {
  if (draft === null || draft.frame.index !== kept.frame.index) return null;
  return draft.shapes.find(({ id }) => kept.shapes.every((shape) => shape.id !== id))?.id ?? null;
}

/**
 * The tool that is in hand next. One that draws stays until it is put away, also while what it drew is set right by a handle.
 * Of ground marks a clip has one set: their tool is done.
 */
function inHandAfter(before: BenchState, state: ToolState, drew: boolean): Pick<BenchState, 'tool' | 'resumes'> {
  if (drew && before.tool.tool === 'ground') return { tool: idle('move'), resumes: null };
  const resumes = before.resumes ?? (before.tool.tool === state.tool ? null : before.tool.tool);
  const isOver = resumes !== null && state.name === 'idle';
  return isOver ? { tool: idle(resumes), resumes: null } : { tool: state, resumes };
}

/** The mark that a key moves, as one name; null for every other event. */
function heldOn(event: ToolEvent, selected: Target | null): string | null {
  return event.type === 'nudge' && selected !== null ? JSON.stringify(selected) : null;
}

function isPointer({ type }: ToolEvent): boolean {
  return type === 'down' || type === 'move' || type === 'up';
}

/** A pointer that only moves has decided nothing. */
function isOfTheHand({ type }: ToolEvent): boolean {
  return type !== 'move' && type !== 'up';
}

/** A shape that only shows here is changed where it was drawn: a press on it says where that is. */
function tellOfCarried(clip: BookClip, marks: FrameMarks, at: PicturePoint, reach: number): void {
  const { index } = marks.frame;
  const taken = pick({ ...marks, points: {}, shapes: carriedTo(clip, index) }, at, reach);
  const home = clip.marks.find(({ shapes }) => taken?.kind === 'shape' && shapes.some(({ id }) => id === taken.id));
  if (home === undefined) return;
  const name = CHECKPOINTS.find((checkpoint) => clip.checkpoints[checkpoint]?.index === home.frame.index);
  const where = name === undefined ? '' : `${lowered(CHECKPOINT_LABELS[name])}, `;
  tellDone(say`This shape was drawn on ${where}frame ${String(home.frame.index)}. It is changed there.`, {
    label: say`Go there`,
    run: () => goTo(home.frame.index),
  });
}

/** At address, face on, the first box is drawn round the head: it is the head box until the coach says otherwise. */
function asHeadBox(clip: BookClip, before: FrameMarks, after: FrameMarks): FrameMarks {
  const drawn = after.shapes.at(-1);
  const isNew = drawn?.kind === 'box' && after.shapes.length > before.shapes.length;
  const isFirst = before.shapes.every((shape) => shape.kind !== 'box');
  const isAddress = clip.view === 'face-on' && clip.checkpoints.address?.index === after.frame.index;
  return isNew && isFirst && isAddress ? withHeadBox(after, drawn.id, true) : after;
}

function isDrawing(tool: ToolName): boolean {
  return tool !== 'move' && tool !== 'points' && tool !== 'path';
}

/** Once the asked-for point is placed, or the one in hand moved, the run goes on after it. */
function askedAfter(state: AppState, before: FrameMarks, step: ToolStep): BodyPointId | null {
  const asked = state.bench?.asked ?? null;
  const clip = benchClip(state);
  if (asked === null || clip === null) return asked;
  const [was, is] = [before.points[asked], (step.commit ?? before).points[asked]];
  if (is === undefined) return asked;
  if (step.commit !== null && (was?.x !== is.x || was.y !== is.y))
    return nextPoint(runOf(clip, before.frame.index), step.commit, asked);
  // One in hand stays there through a gesture and while it is the selected one; Esc or Enter has let it go.
  const isHeld = step.selected?.kind === 'point' && step.selected.point === asked;
  return isHeld || step.state.name !== 'idle' ? asked : null;
}
