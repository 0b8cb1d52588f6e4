import { sideOf } from '../geometry/point.ts';
import { carriedIds, marksAt, marksShownOn, type MarkedClip } from '../model/swing.ts';
import type { View } from '../model/words.ts';
import { cropAroundPlayer } from '../painting/crop.ts';
import { cropsAlike, type AspectRange } from '../painting/crops-alike.ts';
import type { Box } from '../painting/box.ts';
import { drawListOf } from '../painting/draw-list.ts';
import type { DrawItem } from '../painting/draw-item.ts';
import { labelTextsOf } from '../painting/mark-labels.ts';
import { bodyPlaces, isForStudents } from '../painting/plain-marks.ts';
import { readingItems } from '../painting/reading-items.ts';
import type { PanelOrder, SheetRow } from '../painting/sheet-order.ts';
import { reportOf, type LessonReport, type ReportSource } from '../report/lesson-report.ts';
import { stillPages, type StillFrame, type StillPage, type StillsChoice, type WhichSwing } from '../report/stills.ts';
import { stillText } from '../report/still-text.ts';

export interface PlannedPanel extends PanelOrder {
  /** The frame whose picture goes there. */
  readonly frame: { readonly which: WhichSwing; readonly view: View; readonly index: number };
}

export interface PlannedStill extends Pick<StillPage, 'headline' | 'notes' | 'view' | 'nameParts' | 'phone'> {
  /** The same as plain text. */
  readonly text: string;
  readonly rows: readonly (Omit<SheetRow, 'panels'> & { readonly panels: readonly PlannedPanel[] })[];
}

/** Of one picture and of two on a phone, and side by side on a wide sheet. */
const ASPECTS: Readonly<Record<'alone' | 'pair' | 'wide', AspectRange>> = {
  alone: { narrowest: 0.6, widest: 1.3 },
  pair: { narrowest: 0.8, widest: 1.3 },
  wide: { narrowest: 0.6, widest: 1.6 },
};

/** What the report says, with the part of each picture and what is drawn on it. The pictures come later (save-stills.ts). */
export function planStills(order: ReportSource & StillsChoice): readonly PlannedStill[] {
  const report = reportOf(order);
  return stillPages(report, order).map((page) => {
    const { headline, panels, comparisons, notes, view, nameParts, phone } = page;
    const crops = cropsOf(page);
    return {
      rows: [
        {
          panels: panels.map((panel, index) =>
            panelOf(panel, { crop: crops[index] ?? null, report, phone: phone !== null }),
          ),
          comparisons: comparisons.map(rowOf),
        },
      ],
      ...{ headline, notes, view, nameParts, phone },
      text: stillText(page),
    };
  });
}

interface PanelPlan {
  readonly crop: Box | null;
  readonly report: LessonReport;
  readonly phone: boolean;
}

function panelOf(panel: StillFrame, plan: PanelPlan): PlannedPanel {
  const { which, clip, frame, look, caption, readings } = panel;
  return {
    ...{ look, caption, readings },
    picture: { width: clip.width, height: clip.height },
    crop: plan.crop,
    keepFree: plan.phone ? bodyPlaces(marksShownOn(clip, frame), clip.height) : [],
    marks: plan.phone ? plainMarksOf(panel, plan.report) : [...drawnMarks(panel), ...readMarks(panel, plan.report)],
    frame: { which, view: clip.view, index: frame.index },
  };
}

function drawnMarks({ clip, frame, look }: StillFrame): readonly DrawItem[] {
  const marks = marksShownOn(clip, frame);
  return drawListOf(marks, {
    ...{ look, width: clip.width, height: clip.height },
    labels: labelTextsOf(marks, clip),
    quiet: carriedIds(clip, frame.index),
  });
}

function readMarks(
  { which, clip, look, drawn }: StillFrame,
  { source, figures }: LessonReport,
  isPlain = false,
): readonly DrawItem[] {
  const swing = source[which] ?? source.now;
  const side = sideOf(swing.handedness);
  const others = swing.clips.filter((each) => each !== clip);
  const scene = { clip, side, look, figures, others, ...(isPlain ? { isPlain } : {}) };
  return drawn.flatMap((reading) => readingItems(reading, scene));
}

/** What a student reads on a phone: what the coach drew to be looked at, and the chosen readings. */
function plainMarksOf(panel: StillFrame, report: LessonReport): readonly DrawItem[] {
  const { clip, frame, look } = panel;
  const drawn = { ...marksShownOn(clip, frame), points: {} };
  const shown = { ...drawn, shapes: drawn.shapes.filter(isForStudents) };
  return [...drawListOf(shown, { look, width: clip.width, height: clip.height }), ...readMarks(panel, report, true)];
}

/** Then and now are cropped alike; what is shown of one clip shares a crop, so that sizes can be compared. */
function cropsOf({ panels, phone }: StillPage): readonly (Box | null)[] {
  if (phone !== null || new Set(panels.map(({ clip }) => clip)).size > 1) {
    const shown = panels.map(({ clip, checkpoint }) => ({
      frames: [marksAt(clip, checkpoint)].filter((marks) => marks !== null),
      width: clip.width,
      height: clip.height,
    }));
    const alike = cropsAlike(shown, ASPECTS[phone === null ? 'wide' : panels.length === 1 ? 'alone' : 'pair']);
    if (alike !== null) return alike;
  }
  return panels.map(({ clip }) =>
    cropOf(
      clip,
      panels.filter((each) => each.clip === clip),
    ),
  );
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
