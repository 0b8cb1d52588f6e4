import type { TalkEvent } from '../../../core/model/talk.ts';
import { logChanges, type TalkScene } from '../../../core/talk/log-changes.ts';
import { pointKey } from '../../../core/talk/talk-state.ts';

/** What is on the screen, with all that is drawn and placed on the swing. */
export type ScreenNow = TalkScene;

/** Turns looks at the screen into what happened, for one take. */
export interface TakeLog {
  /** What is on the screen at a millisecond of the take. */
  look(screen: ScreenNow, at: number): void;
  /** All that happened since the last time, and takes it away. */
  taken(): readonly TalkEvent[];
}

/**
 * Marks that were there before the take belong to the swing and are none of it, until a hand changes them: then the log also
 * tells how they looked at the beginning. `drawn`: what an earlier take drew or placed (`drawnMarks`), never the swing's own.
 */
export function createTakeLog(drawn: ReadonlySet<string>): TakeLog {
  let before: TalkScene | null = null;
  let last = 0;
  let events: TalkEvent[] = [];
  const drawings = ownMarks<TalkScene['drawings'][number]>(drawn, ({ shape }) => shape.id);
  const points = ownMarks<TalkScene['points'][number]>(drawn, pointKey);

  return {
    look(screen, at) {
      if (screen.panes.length === 0) return;
      // Input has its own clock, which may lie a little before the last look.
      last = before === null ? 0 : Math.max(last, at);
      const [drawing, placing] = [drawings.look(screen.drawings), points.look(screen.points)];
      // Whoever reads the log puts them where they belong.
      for (const each of drawing.touched) events.push({ at: 0, kind: 'draw', ...each });
      for (const each of placing.touched) events.push({ at: 0, kind: 'point', ...each });
      if (before !== null && drawing.touched.length + placing.touched.length > 0)
        before = {
          ...before,
          drawings: [...before.drawings, ...drawing.touched],
          points: [...before.points, ...placing.touched],
        };
      const now = { ...screen, drawings: drawing.others, points: placing.others };
      events.push(...logChanges(before, now, last));
      before = now;
    },
    taken() {
      const all = events;
      events = [];
      return all;
    },
  };
}

/** Keeps apart what was there at the first look; `touched`: how that looked of it which a hand has changed since. */
function ownMarks<Mark>(drawn: ReadonlySet<string>, keyOf: (mark: Mark) => string) {
  let own: Map<string, Mark> | null = null;
  return {
    look(marks: readonly Mark[]): { readonly touched: readonly Mark[]; readonly others: readonly Mark[] } {
      own ??= new Map(marks.filter((mark) => !drawn.has(keyOf(mark))).map((mark) => [keyOf(mark), mark]));
      const now = new Map(marks.map((mark) => [keyOf(mark), mark]));
      const touched: Mark[] = [];
      for (const [key, mark] of own) {
        const is = now.get(key);
        if (is !== undefined && isSame(is, mark)) continue;
        own.delete(key);
        touched.push(mark);
      }
      const kept = own;
      return { touched, others: marks.filter((mark) => !kept.has(keyOf(mark))) };
    },
  };
}

function isSame(one: unknown, other: unknown): boolean {
  return one === other || JSON.stringify(one) === JSON.stringify(other);
}
