import { say } from '../../model/say.ts';
import type { Chain, Goals, WantedRange } from '../../model/goals.ts';
import { isWordsOnly, plainName } from './goals.ts';

/**
 * Where an entry of the goals is from. An entry that ships with the program names its source; once the coach wants
 * something else there, it is his own choice and says so, until he names a source himself.
 */
export const OWN_SOURCE = say`my own choice`;

/**
 * A wanted range with some of it changed by the coach. What is wanted are limits and unit, and of what: reading, aspect,
 * views, checkpoints, clubs; of an entry without limits also its words, which are all it says.
 */
export function changedRange(range: WantedRange, part: Partial<WantedRange>, shipped: Goals): WantedRange {
  return changed(range, part, shipped.wanted, whatIsWanted);
}

/** A chain with some of it changed by the coach. What it claims are its links, without their words, and what comes of them. */
export function changedChain(chain: Chain, part: Partial<Chain>, shipped: Goals): Chain {
  return changed(chain, part, shipped.chains, whatIsClaimed);
}

/**
 * A source that is typed stays as typed. Else, where the change alters what the entry says: a shipped source goes with
 * it, for "my own choice"; an own choice that says again what a shipped entry says has that one's source.
 */
function changed<Entry extends { readonly basis: string }>(
  entry: Entry,
  part: Partial<Entry>,
  shipped: readonly Entry[],
  says: (entry: Entry) => string,
): Entry {
  const next = { ...entry, ...part };
  if (part.basis !== undefined || says(next) === says(entry)) return next;
  const twin = shipped.find((each) => says(each) === says(next));
  if (twin !== undefined) return next.basis === OWN_SOURCE ? { ...next, basis: twin.basis } : next;
  return shipped.some(({ basis }) => basis === next.basis) ? { ...next, basis: OWN_SOURCE } : next;
}

/** The order in which checkpoints, views and clubs are named says nothing, nor does the case of a club. */
function whatIsWanted(range: WantedRange): string {
  const { reading, aspect, views, checkpoints, clubs, from, to, unit, words } = range;
  const where = [views.toSorted(), checkpoints.toSorted(), clubs.map(plainName).toSorted()];
  return JSON.stringify([reading, aspect, ...where, from, to, unit, isWordsOnly(range) ? words : '']);
}

function whatIsClaimed({ links, leadsTo }: Chain): string {
  const seen = links.map(({ reading, aspect, view, checkpoint, miss }) => [reading, aspect, view, checkpoint, miss]);
  return JSON.stringify([seen, leadsTo]);
}

/** "Where this is from: common practice."; null where nothing is said of it. */
export function sourceSentence(basis: string): string | null {
  const said = basis.trim();
  if (said === '') return null;
  return say`Where this is from: ${said}${/[.!?]$/.test(said) ? '' : '.'}`;
}
