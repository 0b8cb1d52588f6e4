import type { TalkEvent } from '../../../core/model/talk.ts';
import { logChanges, type TalkScene } from '../../../core/talk/log-changes.ts';
import { pointKey } from '../../../core/talk/talk-state.ts';

/** What is on the screen, with all that is drawn and placed on the swing. */
export type ScreenNow = TalkScene;

/** Turns looks at the screen into what happened, for one take. */
export interface TakeLog {
  /** What is on the screen at an instant, ms of any steady clock. */
  look(screen: ScreenNow, now: number): void;
  /**
   * All that happened up to the instant `until` and was not taken yet. `timeOf`: the millisecond of the take that goes with an
   * instant, asked only now, since what is heard later tells it better.
   */
  taken(timeOf: (instant: number) => number, until?: number): readonly TalkEvent[];
}

/**
 * Marks that were there before the take belong to the swing and are none of it, until a hand changes them: then the log also
 * tells how they looked at the beginning. `drawn`: what an earlier take drew or placed (`drawnMarks`), never the swing's own.
 */
export function createTakeLog(drawn: ReadonlySet<string>): TakeLog {
  let before: TalkScene | null = null;
  /** The instant of the last look, and the millisecond of the take that was told last. */
  let last = -Infinity;
  let told = 0;
  /** Times of these are instants, but for what was there at the beginning. */
  let happened: { readonly instant: number | null; readonly event: TalkEvent }[] = [];
  const drawings = ownMarks<TalkScene['drawings'][number]>(drawn, ({ shape }) => shape.id);
  const points = ownMarks<TalkScene['points'][number]>(drawn, pointKey);

  return {
    look(screen, now) {
      if (screen.panes.length === 0) return;
      // Input has its own clock, which may lie a little before the last look.
      last = Math.max(last, now);
      const instant = before === null ? null : last;
      const [drawing, placing] = [drawings.look(screen.drawings), points.look(screen.points)];
      // Whoever reads the log puts them where they belong.
      for (const each of drawing.touched) happened.push({ instant: null, event: { at: 0, kind: 'draw', ...each } });
      for (const each of placing.touched) happened.push({ instant: null, event: { at: 0, kind: 'point', ...each } });
      if (before !== null && drawing.touched.length + placing.touched.length > 0)
        before = {
          ...before,
          drawings: [...before.drawings, ...drawing.touched],
          points: [...before.points, ...placing.touched],
        };
      const seen = { ...screen, drawings: drawing.others, points: placing.others };
      happened.push(...logChanges(before, seen, 0).map((event) => ({ instant, event })));
      before = seen;
    },
    taken(timeOf, until = Infinity) {
      const isOver = ({ instant }: (typeof happened)[number]): boolean => instant === null || instant <= until;
      const over = happened.filter(isOver);
      happened = happened.filter((each) => !isOver(each));
      return over.map(({ instant, event }) => {
        if (instant === null) return event;
        told = Math.max(told, timeOf(instant));
        return { ...event, at: told };
      });
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
