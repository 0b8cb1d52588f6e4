import type { LostWhy } from '../../../core/model/followed.ts';
import type { PathPlace, PathShape, PathSubject } from '../../../core/model/mark.ts';
import { createStore } from '../../shell/state/store.ts';

/** A thing followed from a place on; by time stamps, which stay right when frames are numbered anew. */
export interface Chain {
  readonly subject: PathSubject;
  readonly from: PathPlace;
  readonly places: readonly PathPlace[];
  readonly lost: { readonly why: LostWhy; readonly pts: number } | null;
}

/** Where things were followed to, by clip, for as long as the program runs; none of it counts. */
export const followed = createStore<Readonly<Record<string, readonly Chain[]>>>({});

const isSame = (one: PathPlace, other: PathPlace): boolean =>
  one.pts === other.pts && one.x === other.x && one.y === other.y;

/** What is proposed of a path and not on it yet, in the order of its frames, and where it was lost last. */
export interface OpenPlaces {
  readonly places: readonly PathPlace[];
  readonly lost: Chain['lost'];
}

const NOTHING_OPEN: OpenPlaces = { places: [], lost: null };

/**
 * Where the path is followed to and nobody has said so yet. What was followed from a place that stands elsewhere now is not
 * shown, and none of what comes after a place that a hand put elsewhere on the way: it was wrong from there on.
 */
export function openPlaces(chains: readonly Chain[], shape: PathShape | null, subject: PathSubject): OpenPlaces {
  const placed = new Map((shape?.places ?? []).map((place) => [place.pts, place]));
  const standing = chains.filter((chain) => {
    const from = placed.get(chain.from.pts);
    return chain.subject === subject && from !== undefined && isSame(from, chain.from);
  });
  const open = new Map<number, PathPlace>();
  let lost: Chain['lost'] = null;
  for (const { from, places, lost: end } of standing) {
    const isPutRight = (place: PathPlace): boolean => {
      const there = placed.get(place.pts);
      return there !== undefined && !isSame(there, place);
    };
    const right = places.findIndex(isPutRight);
    for (const place of right < 0 ? places : places.slice(0, right))
      if (!placed.has(place.pts)) open.set(place.pts, place);
    const isAfter = lost === null || from.pts > lost.pts;
    if (right < 0 && end !== null && !placed.has(end.pts) && isAfter) lost = end;
  }
  if (open.size === 0 && lost === null) return NOTHING_OPEN;
  return { places: [...open.values()].toSorted((one, other) => one.pts - other.pts), lost };
}
