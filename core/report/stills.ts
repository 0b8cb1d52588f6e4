import { loweredFirst, say } from '../model/say.ts';
import { formatInstant, NOTE_WORDS_ON_STILLS } from '../measure/words/format.ts';
import { lessonsWordsOnStills } from '../measure/words/swings-words.ts';
import { dayInWords } from '../model/day-in-words.ts';
import { AppError } from '../model/errors.ts';
import type { CheckpointFrame } from '../model/frame.ts';
import { READING_NOTES, sameReading, type MeasuredReading, type Verdict } from '../model/reading.ts';
import type { MarkedClip, MarkedSwing } from '../model/swing.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS, type Checkpoint, type View } from '../model/words.ts';
import type { Style, PanelCaption } from './captions.ts';
import { cellOf, type CellSide, type ReportCell } from './cell.ts';
import { byClearness } from './changed.ts';
import { checkpointsToShow } from './checkpoints.ts';
import { headlineOf } from './headline.ts';
import { linesOf } from './lines.ts';
import type { LessonReport } from './lesson-report.ts';
import { phoneChoice, type PhoneWords } from './phone-still.ts';
import type { StillLayout } from './still-file.ts';
import type { ShownComparison } from './shown-reading.ts';

export type WhichSwing = 'then' | 'now';

/** Which frames stills are wanted of. */
export interface StillsChoice {
  /** In the order they stand in, each once, one or more. */
  readonly checkpoints: readonly Checkpoint[];
  readonly views: readonly View[];
  /** Left out: mail. */
  readonly layout?: StillLayout;
}

/** What one still says. The pictures and what is drawn on them come later. */
export interface StillPage {
  /** What is read first; null where nothing is compared. */
  readonly headline: string | null;
  /** Side by side. */
  readonly panels: readonly StillFrame[];
  /** The table below them, what changed first; empty where nothing is compared. What nobody can tell is in the notes. */
  readonly comparisons: readonly ShownComparison[];
  readonly notes: readonly string[];
  /** On a still for a phone all that is said; null on all others. */
  readonly phone: PhoneWords | null;
  readonly view: View;
  /** What tells its file from the others of the same swing and view. */
  readonly nameParts: readonly string[];
}

export interface StillFrame {
  readonly which: WhichSwing;
  readonly clip: MarkedClip;
  readonly checkpoint: Checkpoint;
  readonly frame: CheckpointFrame;
  readonly look: Style;
  readonly caption: PanelCaption;
  readonly readings: readonly { readonly label: string; readonly value: string }[];
  /** What of the readings is drawn on the picture, at most MOST_DRAWN. */
  readonly drawn: readonly MeasuredReading[];
}

/** More on one picture are in each other's way. */
const MOST_DRAWN = 3;

/**
 * One swing: a still a view, its checkpoints side by side. Then and now, and for a phone always: a still a view and checkpoint,
 * with the differences and verdicts below. A checkpoint that is not named in one of the views is left out there.
 * @throws AppError `bad-request` when a view has no clip or nothing to show, or a checkpoint is named in none of the views.
 */
export function stillPages(report: LessonReport, choice: StillsChoice): readonly StillPage[] {
  refuseNothing(report, choice);
  return choice.views.flatMap((view) => {
    const checkpoints = checkpointsToShow(swingsOf(report), view, choice.checkpoints);
    if (choice.layout === 'phone') return checkpoints.map((checkpoint) => pageForPhone(report, view, checkpoint));
    return report.source.then === null
      ? [pageOfOne(report, view, checkpoints)]
      : checkpoints.map((checkpoint) => pageOfBoth(report, view, checkpoint, choice.layout === 'full'));
  });
}

function pageOfOne(report: LessonReport, view: View, checkpoints: readonly Checkpoint[]): StillPage {
  const cells = checkpoints.map((checkpoint) => ({ checkpoint, side: cellOf(report, { view, checkpoint }).now }));
  return {
    panels: cells.map(({ checkpoint, side }) => {
      const ticked = side.readings.filter(({ pin }) => pin === 'pinned').map(({ reading }) => reading);
      return { ...frameOf(report, 'now', { view, checkpoint }, side), drawn: ticked.slice(0, MOST_DRAWN) };
    }),
    headline: null,
    comparisons: [],
    phone: null,
    notes: noteSentences(
      cells.flatMap(({ side }) => side.readings.filter(({ isOnStill }) => isOnStill).map(({ reading }) => reading)),
    ),
    view,
    nameParts: checkpoints,
  };
}

function pageForPhone(report: LessonReport, view: View, checkpoint: Checkpoint): StillPage {
  const { words, drawn } = phoneChoice(report, view, checkpoint);
  const cell = cellOf(report, { view, checkpoint });
  const isAlone = report.source.then === null;
  return {
    headline: words.headline,
    panels: (isAlone ? (['now'] as const) : (['then', 'now'] as const)).map((which) => {
      const frame = frameOf(report, which, { view, checkpoint }, { readings: [] });
      return {
        ...frame,
        caption: { ...frame.caption, time: null },
        drawn: drawn[which].map((reading) => ownReading(cell[which], reading)),
      };
    }),
    comparisons: [],
    notes: [],
    phone: words,
    view,
    nameParts: [...(isAlone ? [] : ['then-now']), checkpoint, 'phone'],
  };
}

function pageOfBoth(report: LessonReport, view: View, checkpoint: Checkpoint, isFull: boolean): StillPage {
  const cell = cellOf(report, { view, checkpoint });
  const { comparisons, unsure } = sortedOut(cell, isFull);
  // What only one of the two has cannot be compared, but is still worth its number.
  const alone = ({ readings }: CellSide) => ({ readings: readings.filter(({ differs }) => differs === null) });
  const compared = comparisons.flatMap(({ comparison: { then, now } }) => [then, now]);
  return {
    headline: headlineOf(cell.comparisons, checkpoint),
    panels: (['then', 'now'] as const).map((which) => ({
      ...frameOf(report, which, { view, checkpoint }, alone(cell[which])),
      drawn: comparisons
        .filter(({ comparison }) => comparison.verdict !== 'no change')
        // On a picture stands what is read from it, also where the table has the mean of several swings.
        .map(({ comparison }) => ownReading(cell[which], comparison[which]))
        .slice(0, MOST_DRAWN),
    })),
    comparisons,
    phone: null,
    notes: [
      ...(unsure.length === 0 ? [] : [unsureWords(unsure)]),
      ...(comparisons.length === 0 ? [] : report.stillWarnings),
      ...[lessonsWordsOnStills(cell.comparisons.map(({ comparison }) => comparison))].filter((words) => words !== null),
      ...noteSentences(compared),
    ],
    view,
    nameParts: ['then-now', checkpoint, ...(isFull ? ['full'] : [])],
  };
}

function ownReading({ readings }: CellSide, compared: MeasuredReading): MeasuredReading {
  if (compared.swings === undefined) return compared;
  return readings.find(({ reading }) => sameReading(reading, compared))?.reading ?? compared;
}

/** What changed, the clearest first; what stayed; and apart from them what nobody can tell, unless the coach ticked it or all is wanted. */
function sortedOut({ comparisons, now }: ReportCell, isFull: boolean) {
  const isTicked = ({ comparison }: ShownComparison): boolean =>
    isFull || now.readings.some(({ reading, pin }) => pin !== 'not pinned' && sameReading(reading, comparison));
  const of = (verdict: Verdict) => comparisons.filter(({ comparison }) => comparison.verdict === verdict);
  const [ticked, unsure] = [true, false].map((is) => of("can't tell").filter((each) => isTicked(each) === is));
  const told = [...byClearness(of('changed')), ...byClearness(of('worth a look')), ...of('no change')];
  return { comparisons: [...told, ...(ticked ?? [])], unsure: unsure ?? [] };
}

function unsureWords(unsure: readonly ShownComparison[]): string {
  return say`Can't tell: ${unsure.map(({ label }) => loweredFirst(label)).join('; ')}.`;
}

function frameOf(
  report: LessonReport,
  which: WhichSwing,
  place: { readonly view: View; readonly checkpoint: Checkpoint },
  side: Pick<CellSide, 'readings'>,
): Omit<StillFrame, 'drawn'> {
  const { swing, clip, frame } = shownAt(report, which, place.view, place.checkpoint);
  return {
    ...{ which, clip, frame, checkpoint: place.checkpoint },
    look: report.source.then === null ? 'plain' : which,
    caption: {
      firstName: swing.studentFirstName,
      date: dayInWords(swing.date),
      view: VIEW_LABELS[clip.view],
      club: swing.club,
      checkpoint: CHECKPOINT_LABELS[place.checkpoint],
      time: formatInstant(frame.pts, clip),
    },
    readings: linesOf(side).map(({ label, number, meaning, change }) => ({
      label,
      value: [number, meaning, change].filter((part) => part !== null).join(', '),
    })),
  };
}

/** Each remark once, in the order they matter, in a student's words: what the coach could mend stays on the coach's screen. */
function noteSentences(readings: readonly MeasuredReading[]): readonly string[] {
  const present = new Set(readings.flatMap(({ notes }) => notes));
  const words = READING_NOTES.filter((note) => present.has(note)).map((note) => NOTE_WORDS_ON_STILLS[note]);
  return words.filter((sentence) => sentence !== null);
}

function swingsOf({ source: { now, then } }: LessonReport): readonly MarkedSwing[] {
  return then === null ? [now] : [then, now];
}

function refuseNothing(report: LessonReport, { checkpoints, views }: StillsChoice): void {
  const swings = swingsOf(report);
  const isShown = (view: View, checkpoint: Checkpoint): boolean =>
    checkpointsToShow(swings, view, [checkpoint]).length > 0;
  const emptyView = views.find((view) => !checkpoints.some((checkpoint) => isShown(view, checkpoint)));
  const nowhere = checkpoints.find((checkpoint) => !views.some((view) => isShown(view, checkpoint)));
  const view = emptyView ?? views[0];
  const checkpoint = nowhere ?? checkpoints[0];
  if ((emptyView ?? nowhere) === undefined || view === undefined || checkpoint === undefined) return;
  // One of these says what is missing.
  if (report.source.then !== null) shownAt(report, 'then', view, checkpoint);
  shownAt(report, 'now', view, checkpoint);
}

function shownAt({ source }: LessonReport, which: WhichSwing, view: View, checkpoint: Checkpoint) {
  const swing = source[which];
  if (swing === null) throw new Error('a frame of then needs the earlier swing');
  const name = which === 'then' ? say`The earlier swing` : say`This swing`;
  const clip = swing.clips.find((each) => each.view === view);
  if (clip === undefined)
    throw new AppError(
      'bad-request',
      say`${name} has no clip of the view "${VIEW_LABELS[view]}". Leave that view out.`,
    );
  const frame = clip.checkpoints[checkpoint];
  if (frame === undefined)
    throw new AppError(
      'bad-request',
      say`${name} has no frame named "${CHECKPOINT_LABELS[checkpoint]}" in its clip of the view "${VIEW_LABELS[view]}". Name that frame, or leave the checkpoint out.`,
    );
  return { swing, clip, frame };
}
