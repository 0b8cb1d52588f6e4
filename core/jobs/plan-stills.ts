import { sideOf } from '../geometry/point.ts';
import { carriedIds, marksAt, marksShownOn, type MarkedClip } from '../model/swing.ts';
import type { View } from '../model/words.ts';
import { cropAroundPlayer } from '../painting/crop.ts';
import { drawListOf } from '../painting/draw-list.ts';
import { labelTextsOf } from '../painting/mark-labels.ts';
import { readingItems } from '../painting/reading-items.ts';
import type { PanelOrder, SheetRow } from '../painting/sheet-order.ts';
import { reportOf, type LessonReport, type ReportSource } from '../report/lesson-report.ts';
import { stillPages, type StillFrame, type StillPage, type StillsChoice, type WhichSwing } from '../report/stills.ts';

export interface PlannedPanel extends PanelOrder {
  /** The frame whose picture goes there. */
  readonly frame: { readonly which: WhichSwing; readonly view: View; readonly index: number };
}

export interface PlannedStill extends Pick<StillPage, 'headline' | 'notes' | 'view' | 'nameParts'> {
  readonly rows: readonly (Omit<SheetRow, 'panels'> & { readonly panels: readonly PlannedPanel[] })[];
}

/** What the report says, with the part of each picture and what is drawn on it. The pictures come later (save-stills.ts). */
export function planStills(order: ReportSource & StillsChoice): readonly PlannedStill[] {
  const report = reportOf(order);
  return stillPages(report, order).map(({ headline, panels, comparisons, notes, view, nameParts }) => ({
    rows: [{ panels: panels.map((panel) => panelOf(panel, panels, report)), comparisons: comparisons.map(rowOf) }],
    ...{ headline, notes, view, nameParts },
  }));
}

/** What is shown of one clip on one still shares a crop, so that sizes can be compared. */
function panelOf(
  { which, clip, frame, look, caption, readings, drawn }: StillFrame,
  all: readonly StillFrame[],
  { source, figures }: LessonReport,
): PlannedPanel {
  const marks = marksShownOn(clip, frame);
  const size = { width: clip.width, height: clip.height };
  const swing = source[which] ?? source.now;
  const side = sideOf(swing.handedness);
  const others = swing.clips.filter((each) => each !== clip);
  return {
    ...{ look, caption, readings },
    picture: size,
    crop: cropOf(
      clip,
      all.filter((each) => each.clip === clip),
    ),
    marks: [
      ...drawListOf(marks, {
        ...{ look, ...size },
        labels: labelTextsOf(marks, clip),
        quiet: carriedIds(clip, frame.index),
      }),
      ...drawn.flatMap((reading) => readingItems(reading, { clip, side, look, figures, others })),
    ],
    frame: { which, view: clip.view, index: frame.index },
  };
}

function cropOf(clip: MarkedClip, frames: readonly StillFrame[]) {
  return cropAroundPlayer(
    frames.flatMap(({ checkpoint }) => marksAt(clip, checkpoint) ?? []),
    clip,
  );
}

const rowOf = ({ label, then, now, difference, comparison }: StillPage['comparisons'][number]) => ({
  ...{ label, then, now, difference },
  verdict: comparison.verdict,
});
