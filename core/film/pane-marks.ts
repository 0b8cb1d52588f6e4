import { say } from '../model/say.ts';
import { sideOf } from '../geometry/point.ts';
import type { BodyPointId } from '../model/body-points.ts';
import type { FrameRef } from '../model/frame.ts';
import type { FrameMarks, Shape } from '../model/mark.ts';
import { sameReading, type MeasuredReading } from '../model/reading.ts';
import { carriedIds, marksShownOn, type MarkedClip, type MarkedSwing } from '../model/swing.ts';
import type { TalkClip, TalkPane, TalkPointName } from '../model/talk.ts';
import { CHECKPOINT_LABELS, CHECKPOINTS, VIEW_LABELS, type Checkpoint } from '../model/words.ts';
import { drawListOf, type DrawItem } from '../painting/draw-list.ts';
import { labelTextsOf } from '../painting/mark-labels.ts';
import { readingItems } from '../painting/reading-items.ts';
import type { Style } from '../painting/styles.ts';
import type { LessonReport } from '../report/lesson-report.ts';
import { pointKey, type TalkDrawing, type TalkState } from '../talk/talk-state.ts';

/** The swing a picture is of, and its clip. @throws Error where the talk-through shows what is not there. */
export function clipOfPane(report: LessonReport, { which, view }: TalkClip): { swing: MarkedSwing; clip: MarkedClip } {
  const swing = report.source[which];
  const clip = swing?.clips.find((each) => each.view === view);
  if (swing === null || clip === undefined) throw new Error(`a picture of ${which} ${view} needs its clip`);
  return { swing, clip };
}

/** What is drawn over one picture at one time, in its own coordinates: the same items as on a still. */
export function paneMarks(
  pane: TalkPane,
  state: Pick<TalkState, 'drawings' | 'points' | 'marks'>,
  report: LessonReport,
  /** Shapes and body points that come while talking (`drawnMarks`); of the swing's own marks they are left out. */
  drawn: ReadonlySet<string>,
): readonly DrawItem[] {
  const { swing, clip } = clipOfPane(report, pane);
  const look = lookOf(pane, report);
  const size = { width: clip.width, height: clip.height };
  const marks = shownMarks(pane, state, clip, drawn);
  const labels = labelTextsOf({ ...marks, shapes: marks.shapes.filter((shape) => !showsOnly(shape, drawn)) }, clip);
  const quiet = carriedIds(clip, pane.frame.index);
  const side = sideOf(swing.handedness);
  const others = swing.clips.filter((each) => each !== clip);
  const { figures } = report;
  const readings = readingsOf(pane, state, report).filter((reading) => isPlaced(reading, pane, state, clip, drawn));
  return [
    ...drawListOf(marks, { look, ...size, labels, quiet }),
    ...readings.flatMap((reading) => readingItems(reading, { clip, side, look, figures, others })),
  ];
}

/** A line drawn while talking shows something; its number would only lie over it. An angle is drawn for its number. */
function showsOnly({ id, kind }: Shape, drawn: ReadonlySet<string>): boolean {
  return drawn.has(id) && kind !== 'angle';
}

function shownMarks(
  pane: TalkPane,
  { drawings, points, marks }: Pick<TalkState, 'drawings' | 'points' | 'marks'>,
  clip: MarkedClip,
  drawn: ReadonlySet<string>,
): FrameMarks {
  const own = marksShownOn(clip, pane.frame);
  const here = drawings.filter((each) => isOn(each, pane)).map(({ shape }) => shape);
  if (!marks.shown) return { ...own, points: {}, shapes: here };
  const placed = [
    ...Object.entries(own.points).filter(([point]) => !drawn.has(pointKey({ ...pane, point: point as BodyPointId }))),
    ...points.filter((each) => isOfFrame(each, pane)).map(({ point, place }) => [point, place] as const),
  ];
  return {
    ...own,
    points: Object.fromEntries(placed),
    shapes: [...own.shapes.filter(({ id }) => !drawn.has(id)), ...here],
  };
}

function isOfFrame({ which, view, frame }: TalkPointName, pane: TalkPane): boolean {
  return which === pane.which && view === pane.view && sameFrame(frame, pane.frame);
}

/** Whether all body points that a reading is computed from are there by now. */
function isPlaced(
  { from }: MeasuredReading,
  { which, view }: TalkClip,
  { points }: Pick<TalkState, 'points'>,
  clip: MarkedClip,
  drawn: ReadonlySet<string>,
): boolean {
  return from.every(({ point, checkpoint }) => {
    const frame = clip.checkpoints[checkpoint];
    const key = frame === undefined ? '' : pointKey({ which, view, frame, point });
    return !drawn.has(key) || points.some((each) => pointKey(each) === key);
  });
}

function isOn({ which, view, frame, shape }: TalkDrawing, pane: TalkPane): boolean {
  if (which !== pane.which || view !== pane.view) return false;
  return shape.carried === true || shape.kind === 'path' || sameFrame(frame, pane.frame);
}

function sameFrame(one: FrameRef, other: FrameRef): boolean {
  return one.index === other.index && one.pts === other.pts;
}

/** Those that were chosen and are read at the frame that is shown. */
function readingsOf(
  pane: TalkPane,
  { marks }: Pick<TalkState, 'marks'>,
  report: LessonReport,
): readonly MeasuredReading[] {
  const checkpoints = checkpointsOf(pane, report);
  return report[pane.which].flatMap((reading) => {
    const isHere = reading.view === pane.view && checkpoints.includes(reading.checkpoint);
    const isChosen = marks.readings.some((key) => sameReading(key, reading));
    return reading.state === 'measured' && isHere && isChosen ? [reading] : [];
  });
}

function checkpointsOf(pane: TalkPane, report: LessonReport): readonly Checkpoint[] {
  const { clip } = clipOfPane(report, pane);
  return CHECKPOINTS.filter((each) => clip.checkpoints[each]?.index === pane.frame.index);
}

/** plain: of one swing. then, now: of two. */
export function lookOf(pane: TalkClip, report: LessonReport): Style {
  return report.source.then === null ? 'plain' : pane.which;
}

const WHICH_WORDS = { then: say`Then`, now: say`Now`, plain: null } as const;

/** What stands in a picture's corner: then or now, and the frame's name, else the view. No number: a student has no use for it. */
export function paneTitle(pane: TalkPane, report: LessonReport): string {
  const [checkpoint] = checkpointsOf(pane, report);
  const what = checkpoint === undefined ? VIEW_LABELS[pane.view] : CHECKPOINT_LABELS[checkpoint];
  return [WHICH_WORDS[lookOf(pane, report)], what].filter((word) => word !== null).join(' · ');
}
