import { sideOf } from '../../../core/geometry/point.ts';
import type { Judgement } from '../../../core/measure/goals/judge-wanted.ts';
import type { BookSwing } from '../../../core/model/book.ts';
import type { Goals } from '../../../core/model/goals.ts';
import type { ReadingKey } from '../../../core/model/reading.ts';
import { CHECKPOINTS } from '../../../core/model/words.ts';
import type { DrawItem, LabelItem } from '../../../core/painting/draw-item.ts';
import { goalItems, readingItems } from '../../../core/painting/reading-items.ts';
import type { Style } from '../../../core/painting/styles.ts';
import { cellOf, type CellReading } from '../../../core/report/cell.ts';
import type { LessonReport } from '../../../core/report/lesson-report.ts';
import { wantedOfReading } from '../readings/wanted-of-reading.ts';
import type { PictureReadings } from '../state/picture-readings.ts';

export interface ReadingsPlace {
  readonly swing: BookSwing;
  readonly clipId: string;
  readonly index: number;
  readonly look: Style;
  readonly goals: Goals;
}

/**
 * The readings of a named frame as what they are: angles, lengths, places on the body. Each has its name, its number and a
 * sign how it stands to what is wanted; of the chosen ones the goal itself is drawn beside what was read. Nothing on a frame without a name.
 */
export function readingsOnPicture(
  report: LessonReport,
  which: PictureReadings,
  at: ReadingsPlace,
): readonly DrawItem[] {
  const clip = at.swing.clips.find(({ id }) => id === at.clipId);
  if (clip === undefined) return [];
  const { club, handedness } = at.swing.lesson;
  const shown = shownOnPicture(report, which, at);
  const scene = { clip, side: sideOf(handedness), look: at.look, figures: report.figures };
  const others = at.swing.clips.filter((each) => each !== clip);
  return shown.flatMap((each) => {
    const wanted = wantedOfReading(each.reading, at.goals, club);
    const judgement = wanted?.judgement ?? null;
    // All at once the goals would lie over one another.
    const goal =
      judgement === null || wanted === null || which === 'all'
        ? []
        : goalItems(each.reading, wanted.range, { ...scene, others });
    const items = readingItems(each.reading, { ...scene, others }).map((item) =>
      item.kind === 'label'
        ? { ...item, ...toneOf(judgement), text: `${each.label} ${item.text}${signOf(judgement)}` }
        : item,
    );
    return [...goal, ...items];
  });
}

/** Which readings those are. */
export function keysOnPicture(
  report: LessonReport,
  which: PictureReadings,
  at: Omit<ReadingsPlace, 'look'>,
): readonly ReadingKey[] {
  return shownOnPicture(report, which, at).map(({ reading: { id, aspect, view, checkpoint } }) => ({
    ...{ id, aspect, view, checkpoint },
  }));
}

function shownOnPicture(
  report: LessonReport,
  which: PictureReadings,
  at: Omit<ReadingsPlace, 'look'>,
): readonly CellReading[] {
  const clip = at.swing.clips.find(({ id }) => id === at.clipId);
  const checkpoint = CHECKPOINTS.find((each) => clip?.checkpoints[each]?.index === at.index);
  if (which === 'none' || clip === undefined || checkpoint === undefined) return [];
  const all = cellOf(report, { view: clip.view, checkpoint }).now.readings;
  return which === 'all' ? all : chosenOf(all, at.goals, at.swing.lesson.club);
}

/** What the coach ticked for the still; where nothing is, what the goals want something of. */
export function chosenOf(all: readonly CellReading[], goals: Goals, club: string): readonly CellReading[] {
  const ticked = all.filter(({ pin }) => pin !== 'not pinned');
  if (ticked.length > 0) return ticked;
  return all.filter(({ reading }) => (wantedOfReading(reading, goals, club)?.judgement ?? null) !== null);
}

/** Beside the number on the picture; elsewhere the words stand. */
const SIGNS: Readonly<Record<Judgement, string>> = {
  'on target': ' ✓',
  'too low': ' ↓',
  'too high': ' ↑',
  'too close to call': ' ≈',
};

/** How a reading stands to its goal, as a sign; empty where it has none. */
function signOf(judgement: Judgement | null): string {
  return judgement === null ? '' : SIGNS[judgement];
}

/** The same by colour; what is too close to call has none. */
function toneOf(judgement: Judgement | null): Pick<LabelItem, 'tone'> {
  if (judgement === null || judgement === 'too close to call') return {};
  return { tone: judgement === 'on target' ? 'good' : 'missed' };
}
