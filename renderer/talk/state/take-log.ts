import type { TalkEvent } from '../../../core/model/talk.ts';
import { logChanges, type TalkScene } from '../../../core/talk/log-changes.ts';
import type { TalkDrawing } from '../../../core/talk/talk-state.ts';

/** What is on the screen, with all that is drawn on the swing. */
export type ScreenNow = TalkScene;

/** Turns looks at the screen into what happened, for one take. */
export interface TakeLog {
  /** What is on the screen at a millisecond of the take. */
  look(screen: ScreenNow, at: number): void;
  /** All that happened since the last time, and takes it away. */
  taken(): readonly TalkEvent[];
}

/**
 * Marks that were there before the take belong to the swing and are no drawings of it, until a hand changes them: then
 * the log also tells how they looked at the beginning. `drawn`: ids of shapes that an earlier take drew; they are never
 * the swing's own.
 */
export function createTakeLog(drawn: ReadonlySet<string>): TakeLog {
  let before: TalkScene | null = null;
  let last = 0;
  let events: TalkEvent[] = [];
  const own = new Map<string, TalkDrawing>();

  function withoutOwn(drawings: readonly TalkDrawing[]): readonly TalkDrawing[] {
    if (before === null)
      for (const drawing of drawings) if (!drawn.has(drawing.shape.id)) own.set(drawing.shape.id, drawing);
    const now = new Map(drawings.map((drawing) => [drawing.shape.id, drawing]));
    for (const [id, drawing] of own) {
      const is = now.get(id);
      if (is !== undefined && isSame(is, drawing)) continue;
      own.delete(id);
      // Whoever reads the log puts it where it belongs.
      events.push({ at: 0, kind: 'draw', ...drawing });
      if (before !== null) before = { ...before, drawings: [...before.drawings, drawing] };
    }
    return drawings.filter(({ shape }) => !own.has(shape.id));
  }

  return {
    look(screen, at) {
      if (screen.panes.length === 0) return;
      // Input has its own clock, which may lie a little before the last look.
      last = before === null ? 0 : Math.max(last, at);
      const now = { ...screen, drawings: withoutOwn(screen.drawings) };
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

function isSame(one: TalkDrawing, other: TalkDrawing): boolean {
  return one.shape === other.shape || JSON.stringify(one) === JSON.stringify(other);
}
