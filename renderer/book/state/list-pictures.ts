import type { OverviewClip, StudentOverview } from '../../../core/model/book.ts';
import { CHECKPOINTS, VIEWS, type Checkpoint, type View } from '../../../core/model/words.ts';

/** A frame of a clip that stands in a list as a small picture. */
export interface ListedFrame {
  readonly clip: string;
  readonly frame: number;
}

/** One of a lesson's pictures. */
export interface LessonFrame extends ListedFrame {
  readonly swing: string;
  readonly view: View;
  /** null: the first frame of a clip in which none has a name yet. */
  readonly checkpoint: Checkpoint | null;
}

/** Which frames tell a swing apart at a glance, the most telling first. */
const TELLING: readonly Checkpoint[] = ['top', 'impact', 'address', ...CHECKPOINTS];
const SHOWN: readonly Checkpoint[] = ['address', 'top', 'impact'];

type LessonEntry = StudentOverview['lessons'][number];

/** The picture of a student: of the last lesson that has a clip with a named frame; null: there is none. */
export function pictureOf({ lessons }: Pick<StudentOverview, 'lessons'>): ListedFrame | null {
  const latestFirst = lessons.toSorted((one, other) => (one.lesson.date < other.lesson.date ? 1 : -1));
  for (const { swings } of latestFirst)
    for (const clip of swings.toReversed().flatMap(({ clips }) => inOrder(clips))) {
      const frame = TELLING.map((checkpoint) => clip.named[checkpoint]).find((index) => index !== undefined);
      if (frame !== undefined) return { clip: clip.id, frame };
    }
  return null;
}

/**
 * The pictures of a lesson: address, top and impact of the first swing that has them named, a view after the other. Where
 * nothing is named yet, the first frame of each clip of the first swing that has one.
 */
export function picturesOf({ swings }: Pick<LessonEntry, 'swings'>): readonly LessonFrame[] {
  for (const { swing, clips } of swings) {
    const found = inOrder(clips).flatMap((clip) =>
      SHOWN.flatMap((checkpoint) => {
        const frame = clip.named[checkpoint];
        return frame === undefined ? [] : [{ swing: swing.id, clip: clip.id, view: clip.view, frame, checkpoint }];
      }),
    );
    if (found.length > 0) return found;
  }
  const filmed = swings.find(({ clips }) => clips.length > 0);
  return inOrder(filmed?.clips ?? []).map(({ id, view }) => ({
    ...{ swing: filmed?.swing.id ?? '', clip: id, view },
    ...{ frame: 0, checkpoint: null },
  }));
}

function inOrder(clips: readonly OverviewClip[]): readonly OverviewClip[] {
  return clips.toSorted((one, other) => VIEWS.indexOf(one.view) - VIEWS.indexOf(other.view));
}
