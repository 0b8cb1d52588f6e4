import type { OverviewClip, StudentOverview } from '../../../core/model/book.ts';
import { CHECKPOINTS, VIEWS, type Checkpoint } from '../../../core/model/words.ts';

/** A frame of a clip that stands in a list as a small picture. */
export interface ListedFrame {
  readonly clip: string;
  readonly frame: number;
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

/** The pictures of a lesson: address, top and impact of the first swing that has them named, a view after the other. */
export function picturesOf({ swings }: Pick<LessonEntry, 'swings'>): readonly ListedFrame[] {
  for (const { clips } of swings) {
    const found = inOrder(clips).flatMap((clip) =>
      SHOWN.flatMap((checkpoint) => {
        const frame = clip.named[checkpoint];
        return frame === undefined ? [] : [{ clip: clip.id, frame }];
      }),
    );
    if (found.length > 0) return found;
  }
  return [];
}

function inOrder(clips: readonly OverviewClip[]): readonly OverviewClip[] {
  return clips.toSorted((one, other) => VIEWS.indexOf(one.view) - VIEWS.indexOf(other.view));
}
