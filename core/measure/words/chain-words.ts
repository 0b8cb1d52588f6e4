import { lowered, say } from '../../model/say.ts';
import type { ChainLink, LinkMiss } from '../../model/goals.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../model/words.ts';
import { CATALOGUE } from '../catalogue/catalogue.ts';
import { keyOfLink } from '../goals/chain.ts';
import type { EvaluatedChain, EvaluatedLink, LinkState } from '../goals/chain.ts';
import { otherUnitWords } from './format.ts';
import { idleWords, labelOf, missingWords } from './words.ts';

/** How a link of a chain can stand. */
export const LINK_STATE_WORDS: Readonly<Record<LinkState, string>> = {
  seen: say`seen`,
  'not seen': say`not seen`,
  'too close to call': say`too close to call`,
  'not measured': say`not measured`,
};

/** What each state of a link means, for a hint beside it. */
export const LINK_STATE_MEANINGS: Readonly<Record<LinkState, string>> = {
  seen: say`The reading lies on the side of the miss with all of its ±.`,
  'not seen': say`The reading lies on the other side with all of its ±.`,
  'too close to call': say`Too close to call: the limit lies within the ± of the reading.`,
  'not measured': say`There is no reading yet to compare with the limit.`,
};

/** The side of a reading that is the miss, e.g. "above its wanted range", "away from the target". */
export function linkMissWords({ reading, aspect, miss }: Pick<ChainLink, 'reading' | 'aspect' | 'miss'>): string {
  const { sign, quantity } = CATALOGUE[reading];
  const [less, more] =
    aspect === 'change'
      ? [say`less than at address`, say`more than at address`]
      : quantity === 'ratio'
        ? [say`smaller than at address`, say`larger than at address`]
        : [sign?.minus ?? say`below 0`, sign?.plus ?? say`above 0`];
  switch (miss) {
    case 'below-range':
      return say`below its goal`;
    case 'above-range':
      return say`above its goal`;
    case 'minus':
      return less;
    case 'plus':
      return more;
    case 'moved-down':
      return say`lower than last time`;
    case 'moved-up':
      return say`higher than last time`;
  }
}

/** The sides that make sense for a reading: a number that cannot be negative has no sign. */
export function missesOf({ reading, aspect }: Pick<ChainLink, 'reading' | 'aspect'>): readonly LinkMiss[] {
  const { sign, quantity } = CATALOGUE[reading];
  const hasSides = aspect === 'change' || sign !== null || quantity === 'ratio';
  return ['above-range', 'below-range', ...(hasSides ? (['plus', 'minus'] as const) : []), 'moved-up', 'moved-down'];
}

/** Name of a link with where it is read, e.g. "Head shift at top". */
export function linkLabel(link: ChainLink): string {
  return say`${labelOf(keyOfLink(link))} at ${lowered(CHECKPOINT_LABELS[link.checkpoint])}`;
}

/** What to do so that a link can be measured; null where it is. */
export function linkNeedWords({ link, need }: EvaluatedLink): string | null {
  const at = lowered(CHECKPOINT_LABELS[link.checkpoint]);
  switch (need?.kind) {
    case undefined:
      return null;
    case 'reading':
      return missingWords(need.reading);
    case 'frame':
      return say`Name the frame of ${at} in a clip ${lowered(VIEW_LABELS[link.view])}.`;
    case 'of-no-use':
      return idleWords(need.reading);
    case 'range':
      return say`Your goals have no limit on that side at ${at}. Add one.`;
    case 'unit':
      return otherUnitWords(need.wanted);
    case 'then':
      return say`Choose an earlier swing that has this reading too.`;
  }
}

/**
 * How far a chain holds, in one or two sentences. Readings that are seen together "go with" each other; that one brings
 * about the other is the goals' word, not a reading's.
 */
export function chainWords({ links, holds }: EvaluatedChain): string {
  const seen = links.slice(0, holds).map(({ link }) => linkLabel(link));
  const [first = '', ...others] = seen;
  const together =
    others.length === 0 ? say`${first} is seen.` : say`${first} goes with ${others.join(say`, and with `)}.`;
  const next = links[holds];
  if (next === undefined) return links.length === 1 ? together : say`All of it is seen. ${together}`;
  const stop = `${linkLabel(next.link)}: ${LINK_STATE_WORDS[next.state]}.`;
  if (holds === 0) return say`Nothing is seen from its start on. ${stop}`;
  return say`Seen for ${String(holds)} of ${String(links.length)} links from its start. ${together} ${stop}`;
}
