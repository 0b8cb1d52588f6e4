import { compareSwings } from '../compare/compare-swings.ts';
import { shownCell, withoutCompared } from '../compare/shown-cell.ts';
import { figuresOf, type Figures } from '../measure/words/figures.ts';
import { formatInstant, labelOf, NOTE_WORDS_ON_STILLS } from '../measure/words/format.ts';
import { comparisonsOfUse, readingsOfUse } from '../measure/doubts/of-use.ts';
import type { Pattern } from '../measure/pattern/pattern.ts';
import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import { readSwing } from '../measure/readings/read-swing.ts';
import { AppError } from '../model/errors.ts';
import type { CheckpointFrame } from '../model/frame.ts';
import { READING_NOTES, type Comparison, type MeasuredReading } from '../model/reading.ts';
import { carriedIds, marksAt, marksShownOn, type MarkedClip, type MarkedSwing } from '../model/swing.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS, type Checkpoint, type View } from '../model/words.ts';
import { cropAroundPlayer } from '../painting/crop.ts';
import { drawListOf } from '../painting/draw-list.ts';
import type { Style } from '../painting/styles.ts';
import { labelTextsOf } from '../painting/mark-labels.ts';
import type { ComparisonRow, PanelOrder, ReadingRow } from '../painting/sheet-order.ts';

/** What is to be shown. Everything here is decided from marks alone; the pictures come later (save-stills.ts). */
export interface StillsPlanOrder {
  readonly now: MarkedSwing;
  /** The earlier swing, or null for one swing alone. */
  readonly then: MarkedSwing | null;
  /** In the order they stand in, each once, one or more. */
  readonly checkpoints: readonly Checkpoint[];
  readonly views: readonly View[];
  readonly pattern: Pattern;
  /** Of the hand that placed the points; left out = assumed. */
  readonly placing?: PlacingErrors;
}

export type WhichSwing = 'then' | 'now';

export interface PlannedPanel extends PanelOrder {
  /** The frame whose picture goes there. */
  readonly frame: { readonly which: WhichSwing; readonly view: View; readonly index: number };
}

export interface PlannedStill {
  readonly rows: readonly {
    readonly panels: readonly PlannedPanel[];
    readonly comparisons: readonly ComparisonRow[];
  }[];
  readonly notes: readonly string[];
  readonly view: View;
  /** What tells its file from the others of the same swing and view. */
  readonly nameParts: readonly string[];
}

/**
 * One swing: a still a view, its checkpoints side by side. Then and now: a still a view and checkpoint, with the
 * differences and verdicts below. A checkpoint that is not named in one of the views is left out there.
 * @throws AppError `bad-request` when a view has no clip or nothing to show, or a checkpoint is named in none of the views.
 */
export function planStills(order: StillsPlanOrder): readonly PlannedStill[] {
  refuseNothing(order);
  return order.then === null ? planOne(order) : planThenNow(order, order.then);
}

/** In the order in which they were asked for. */
export function checkpointsToShow(
  swings: readonly MarkedSwing[],
  view: View,
  checkpoints: readonly Checkpoint[],
): readonly Checkpoint[] {
  const clips = swings.map((swing) => swing.clips.find((clip) => clip.view === view));
  return checkpoints.filter((checkpoint) => clips.every((clip) => clip?.checkpoints[checkpoint] !== undefined));
}

function refuseNothing({ now, then, checkpoints, views }: StillsPlanOrder): void {
  const swings = then === null ? [now] : [then, now];
  const isShown = (view: View, checkpoint: Checkpoint): boolean =>
    checkpointsToShow(swings, view, [checkpoint]).length > 0;
  const emptyView = views.find((view) => !checkpoints.some((checkpoint) => isShown(view, checkpoint)));
  const nowhere = checkpoints.find((checkpoint) => !views.some((view) => isShown(view, checkpoint)));
  const view = emptyView ?? views[0];
  const checkpoint = nowhere ?? checkpoints[0];
  if ((emptyView ?? nowhere) === undefined || view === undefined || checkpoint === undefined) return;
  // One of these says what is missing.
  for (const swing of swings) shownAt(swing === now ? 'now' : 'then', swing, view, checkpoint);
}

function planOne({ now, checkpoints: wanted, views, placing }: StillsPlanOrder): readonly PlannedStill[] {
  const readings = readSwing(now, placing);
  const figures = figuresOf([readingsOfUse(readings)]);
  return views.map((view) => {
    const checkpoints = checkpointsToShow([now], view, wanted);
    const shown = checkpoints.map((checkpoint) => shownAt('now', now, view, checkpoint));
    const own = (checkpoint: Checkpoint): readonly MeasuredReading[] =>
      shownCell({ now: readings, then: [], comparisons: [] }, { view, checkpoint }, now.pins ?? []).now;
    return {
      rows: [
        {
          panels: shown.map((each) => panelOf(each, 'plain', shown, readingRows(own(each.checkpoint), figures))),
          comparisons: [],
        },
      ],
      notes: noteSentences(checkpoints.flatMap(own)),
      view,
      nameParts: checkpoints,
    };
  });
}

function planThenNow(
  { now, checkpoints, views, pattern, placing }: StillsPlanOrder,
  then: MarkedSwing,
): readonly PlannedStill[] {
  const { comparisons, stillWarnings } = compareSwings(then, now, pattern, placing);
  const read = { then: readSwing(then, placing), now: readSwing(now, placing), comparisons };
  const figures = figuresOf([readingsOfUse(read.then), readingsOfUse(read.now)], comparisonsOfUse(comparisons));
  return views.flatMap((view) =>
    checkpointsToShow([then, now], view, checkpoints).map((checkpoint) => {
      const cell = shownCell(read, { view, checkpoint }, now.pins ?? []);
      const compared = cell.comparisons;
      const panels = (['then', 'now'] as const).map((which) => {
        const shown = shownAt(which, which === 'then' ? then : now, view, checkpoint);
        // What only one of the two has cannot be compared, but is still worth its number.
        const alone = withoutCompared(cell[which], compared);
        return panelOf(shown, which, [shown], readingRows(alone, figures));
      });
      return {
        rows: [{ panels, comparisons: compared.map((each) => comparisonRow(each, figures)) }],
        notes: [
          ...(compared.length === 0 ? [] : stillWarnings),
          ...noteSentences(compared.flatMap((each) => [each.then, each.now])),
        ],
        view,
        nameParts: ['then-now', checkpoint],
      };
    }),
  );
}

interface Shown {
  readonly which: WhichSwing;
  readonly swing: MarkedSwing;
  readonly clip: MarkedClip;
  readonly checkpoint: Checkpoint;
  readonly frame: CheckpointFrame;
}

function shownAt(which: WhichSwing, swing: MarkedSwing, view: View, checkpoint: Checkpoint): Shown {
  const name = which === 'then' ? 'The earlier swing' : 'This swing';
  const clip = swing.clips.find((each) => each.view === view);
  if (clip === undefined)
    throw new AppError('bad-request', `${name} has no clip of the view "${VIEW_LABELS[view]}". Leave that view out.`);
  const frame = clip.checkpoints[checkpoint];
  if (frame === undefined)
    throw new AppError(
      'bad-request',
      `${name} has no frame named "${CHECKPOINT_LABELS[checkpoint]}" in its clip of the view "${VIEW_LABELS[view]}". ` +
        'Name that frame, or leave the checkpoint out.',
    );
  return { which, swing, clip, checkpoint, frame };
}

/** `alike`: all that is shown of the same clip on the still; they share one crop, so that sizes can be compared. */
function panelOf(
  { which, swing, clip, checkpoint, frame }: Shown,
  look: Style,
  alike: readonly Shown[],
  readings: readonly ReadingRow[],
): PlannedPanel {
  const marks = marksShownOn(clip, frame);
  const size = { width: clip.width, height: clip.height };
  return {
    picture: size,
    crop: cropAroundPlayer(
      alike.flatMap((each) => marksAt(each.clip, each.checkpoint) ?? []),
      size,
    ),
    look,
    caption: {
      firstName: swing.studentFirstName,
      date: swing.date,
      view: VIEW_LABELS[clip.view],
      club: swing.club,
      checkpoint: CHECKPOINT_LABELS[checkpoint],
      frame: `frame ${frame.index}`,
      time: formatInstant(frame.pts, clip),
    },
    marks: drawListOf(marks, {
      look,
      ...size,
      labels: labelTextsOf(marks, clip),
      quiet: carriedIds(clip, frame.index),
    }),
    readings,
    frame: { which, view: clip.view, index: frame.index },
  };
}

/** One row a reading: its value, what that means, and how far it is from address where both are there. */
function readingRows(readings: readonly MeasuredReading[], figures: Figures): readonly ReadingRow[] {
  const values = readings.filter(({ aspect }) => aspect === 'value');
  const changes = readings.filter(({ aspect }) => aspect === 'change');
  const rows = values.map((reading): ReadingRow => {
    const meaning = figures.meaning(reading);
    const change = changes.find(({ id }) => id === reading.id);
    const parts = [figures.reading(reading).text];
    if (meaning !== null) parts.push(meaning);
    if (change !== undefined) parts.push(`${figures.reading(change).text} from address`);
    return { label: labelOf(reading), value: parts.join(', ') };
  });
  const alone = changes.filter(({ id }) => !values.some((value) => value.id === id));
  return [...rows, ...alone.map((change) => ({ label: labelOf(change), value: figures.reading(change).text }))];
}

function comparisonRow(comparison: Comparison, figures: Figures): ComparisonRow {
  const { then, now, difference } = figures.comparison(comparison);
  return {
    label: labelOf(comparison),
    then: then.text,
    now: now.text,
    difference: difference.text,
    verdict: comparison.verdict,
  };
}

/** Each remark once, in the order they matter, in a student's words: what the coach could mend stays on the coach's screen. */
function noteSentences(readings: readonly MeasuredReading[]): readonly string[] {
  const present = new Set(readings.flatMap(({ notes }) => notes));
  const words = READING_NOTES.filter((note) => present.has(note)).map((note) => NOTE_WORDS_ON_STILLS[note]);
  return words.filter((sentence) => sentence !== null);
}
