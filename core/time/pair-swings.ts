/** A swing of a lesson that may get a clip of another view. */
export interface SwingPlace {
  readonly swingId: string;
  readonly label: string;
  /** Where its clip of the other camera ends in the file that it was cut from, seconds; null: it was not cut, or has none. */
  readonly endsAt: number | null;
}

/** Where a swing of a long clip goes to: null is a new swing. `sure`: the times of both cameras say so. */
export interface PairedSwing {
  readonly swingId: string | null;
  readonly sure: boolean;
}

/** Cuts of one swing end so near each other, seconds. (They begin at key pictures, which may be many seconds earlier.) */
const NEAR = 2;
/** So many swings, and this part of those that could, must fit by one difference of the clocks, and by no other. */
const LEAST = 2;
const MOST_OF = 0.75;

/**
 * Which swing is which between two cameras that were started by hand: by the one difference between their clocks that lets most
 * swings fit. Where times say nothing swings are taken in their order, and none of it is sure. No place is given twice.
 *
 * @param here where the cuts of the other file end, seconds, rising
 */
export function pairSwings(places: readonly SwingPlace[], here: readonly number[]): readonly PairedSwing[] {
  const timed = places.flatMap(({ swingId, endsAt }) => (endsAt === null ? [] : [{ swingId, endsAt }]));
  const offsets = timed.flatMap(({ endsAt }) => here.map((at) => endsAt - at));
  const fits = offsets.map((offset) => ({ offset, swings: fitting(timed, here, offset) }));
  const [best] = fits.toSorted((one, other) => other.swings.size - one.swings.size);
  const needed = Math.max(LEAST, MOST_OF * Math.min(timed.length, here.length));
  const isOnlyOne =
    best !== undefined &&
    fits.every(({ offset, swings }) => swings.size < best.swings.size || Math.abs(offset - best.offset) <= 2 * NEAR);
  if (best !== undefined && isOnlyOne && best.swings.size >= needed)
    return here.map((_, number) => ({ swingId: best.swings.get(number) ?? null, sure: true }));
  return here.map((_, number) => ({ swingId: places[number]?.swingId ?? null, sure: false }));
}

/** By number in `here` the swing that ends at the same time, if one clock is `offset` seconds ahead of the other. */
function fitting(
  timed: readonly { readonly swingId: string; readonly endsAt: number }[],
  here: readonly number[],
  offset: number,
): ReadonlyMap<number, string> {
  const fit = new Map<number, string>();
  for (const { swingId, endsAt } of timed) {
    const off = here.map((at) => Math.abs(endsAt - at - offset));
    const nearest = off.indexOf(Math.min(...off));
    if ((off[nearest] ?? Infinity) <= NEAR && !fit.has(nearest)) fit.set(nearest, swingId);
  }
  return fit;
}
