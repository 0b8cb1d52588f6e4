import type { TalkEvent, TalkPane } from '../model/talk.ts';
import { pointKey, type TalkDrawing, type TalkPoint, type TalkState } from './talk-state.ts';

/** What is recorded of the screen while a coach talks. */
export type TalkScene = Pick<TalkState, 'panes' | 'drawings' | 'points' | 'marks' | 'pointer'>;

type Happened = TalkEvent extends infer Each ? (Each extends TalkEvent ? Omit<Each, 'at'> : never) : never;

/**
 * What happened on the screen between two looks at it, as events `at` a millisecond of the take; empty where nothing did.
 * Events that `after` is given in this order lead from the one to the other. Nothing to be seen is no scene: it changes nothing.
 */
export function logChanges(before: TalkScene | null, now: TalkScene, at: number): readonly TalkEvent[] {
  if (now.panes.length === 0) return [];
  return [
    ...paneChanges(before?.panes ?? [], now.panes),
    ...drawingChanges(before?.drawings ?? [], now.drawings),
    ...pointChanges(before?.points ?? [], now.points),
    ...(same(before?.marks ?? null, now.marks) ? [] : [{ kind: 'marks', ...now.marks } as const]),
    ...(same(before?.pointer ?? null, now.pointer) ? [] : [{ kind: 'pointer', place: now.pointer } as const]),
  ].map((happened): TalkEvent => ({ at, ...happened }));
}

function paneChanges(before: readonly TalkPane[], now: readonly TalkPane[]): readonly Happened[] {
  const isSamePlace = (pane: TalkPane, index: number): boolean =>
    before[index]?.which === pane.which && before[index].view === pane.view;
  if (before.length !== now.length || !now.every(isSamePlace)) return [{ kind: 'show', panes: now }];
  return now.flatMap(({ frame, part }, pane): Happened[] => [
    ...(same(before[pane]?.frame, frame) ? [] : [{ kind: 'frame', pane, frame } as const]),
    ...(same(before[pane]?.part, part) ? [] : [{ kind: 'zoom', pane, part } as const]),
  ]);
}

function drawingChanges(before: readonly TalkDrawing[], now: readonly TalkDrawing[]): readonly Happened[] {
  const was = new Map(before.map((drawing) => [drawing.shape.id, drawing]));
  const is = new Set(now.map(({ shape }) => shape.id));
  return [
    ...before
      .filter(({ shape }) => !is.has(shape.id))
      .map(({ shape }) => ({ kind: 'erase', shape: shape.id }) as const),
    ...now
      .filter((drawing) => !same(was.get(drawing.shape.id), drawing))
      .map((drawing) => ({ kind: 'draw', ...drawing }) as const),
  ];
}

function pointChanges(before: readonly TalkPoint[], now: readonly TalkPoint[]): readonly Happened[] {
  if (before === now) return [];
  const was = new Map(before.map((each) => [pointKey(each), each]));
  const is = new Set(now.map(pointKey));
  return [
    ...before
      .filter((each) => !is.has(pointKey(each)))
      .map((each) => ({ kind: 'point', ...each, place: null }) as const),
    ...now.filter((each) => !same(was.get(pointKey(each)), each)).map((each) => ({ kind: 'point', ...each }) as const),
  ];
}

/** Plain values of the same content; those that did not change are most often the very same value. */
function same(one: unknown, other: unknown): boolean {
  return one === other || JSON.stringify(one) === JSON.stringify(other);
}
