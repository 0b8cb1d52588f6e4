import { useState } from 'react';
import type { FrameSpan } from '../../core/model/frame.ts';
import type { SwingOfClip } from '../../core/model/proposal.ts';
import type { View } from '../../core/model/words.ts';
import type { ClipSummary } from '../../core/time/clip-summary.ts';
import { pairSwings, type SwingPlace } from '../../core/time/pair-swings.ts';
import { ask } from '../api.ts';
import { useAnswer } from '../shell/use-answer.ts';
import type { PartToKeep } from '../swing/state/swing-actions.ts';
import { useFoundSwings, type SwingSearch } from './use-found-swings.ts';

/** A swing that was found, and where it would go. */
export interface OfferedSwing extends SwingOfClip {
  readonly ticked: boolean;
  /** The swing it would go to; null: a new one. Told of what is ticked. */
  readonly to: string | null;
  /** Nothing says which swing it is: the coach is asked. */
  readonly asks: boolean;
}

export interface Parts {
  readonly search: SwingSearch;
  readonly swings: readonly OfferedSwing[];
  readonly places: readonly SwingPlace[];
  /** What is kept, in the order of the clip; at least one. */
  readonly parts: readonly PartToKeep[];
  /** The part as it is set by hand, where there is one. */
  readonly span: FrameSpan | null;
  setSpan(span: FrameSpan): void;
  tick(impact: number, ticked: boolean): void;
  send(impact: number, to: string | null): void;
}

const placesOf = (key: string): Promise<readonly SwingPlace[]> => {
  const [id = '', view] = key.split(' ');
  return ask('swing/places', { id, view: view as View });
};

/** Which parts of a clip come into the lesson: swings that were found and ticked, or one part that is set by hand. */
export function useParts(
  { path, swingId, view }: { readonly path: string; readonly swingId: string; readonly view: View },
  clip: ClipSummary | null,
): Parts {
  const search = useFoundSwings(path, clip?.long === true);
  const [ticks, setTicks] = useState<ReadonlySet<number> | null>(null);
  const [byHand, setByHand] = useState<FrameSpan | null>(null);
  const [sent, setSent] = useState<Readonly<Record<number, string | null>>>({});
  const came = useAnswer(`${swingId} ${view}`, placesOf);
  const places = came !== null && 'answer' in came ? came.answer : [];

  const struck = search.state === 'found' ? search.swings.filter(({ seen, heard }) => seen || heard) : [];
  // Whoever films a swing stops soon after it: the last is offered, until the coach has said otherwise.
  const latest = struck.findLast(({ seen }) => seen);
  const ticked = ticks ?? new Set(latest === undefined || byHand !== null ? [] : [latest.impact]);
  const chosen = struck.filter(({ impact }) => ticked.has(impact));
  const paired = pairSwings(
    places,
    chosen.map(({ span }) => clip?.times[span.to] ?? 0),
  );
  const isSecondCamera = places.some(({ endsAt }) => endsAt !== null);
  const targetOf = (impact: number): { readonly to: string | null; readonly asks: boolean } => {
    const at = chosen.findIndex((swing) => swing.impact === impact);
    // A single one comes where it was asked for.
    const pair = chosen.length === 1 ? { swingId, sure: true } : (paired[at] ?? { swingId: null, sure: true });
    const said = sent[impact];
    return { to: said === undefined ? pair.swingId : said, asks: isSecondCamera && (!pair.sure || said !== undefined) };
  };
  const [only] = chosen;
  const last = { from: 0, to: (clip?.frameCount ?? 1) - 1 };
  const single = byHand ?? (chosen.length === 1 ? only?.span : null) ?? clip?.suggestedSpan ?? last;
  return {
    search,
    places,
    swings: struck.map((swing) => ({ ...swing, ticked: ticked.has(swing.impact), ...targetOf(swing.impact) })),
    parts:
      chosen.length > 1
        ? chosen.map(({ span, impact }) => ({ span, swingId: targetOf(impact).to }))
        : [{ span: single, swingId }],
    span: chosen.length > 1 ? null : single,
    setSpan: (span) => {
      setTicks(ticked);
      setByHand(span);
    },
    tick: (impact, isTicked) => {
      const next = new Set(ticked);
      if (isTicked) next.add(impact);
      else next.delete(impact);
      setTicks(next);
      setByHand(null);
    },
    send: (impact, to) => setSent({ ...sent, [impact]: to }),
  };
}
