import content from '../../resources/goals.json' with { type: 'json' };
import type { Goals } from '../model/goals.ts';
import { saidText } from '../model/say.ts';
import { parseGoalsFile } from './goals.ts';

/**
 * The goals that ship with the program: common practice only, until the coach has own ones. They are a goals file
 * like any other. They are read here and not in core/measure, which takes no packages: there goals are handed in. Their texts go by
 * the language of the program, until they are the coach's own.
 */
export const SHIPPED_GOALS = spoken(parseGoalsFile(content));

function spoken(goals: Goals): Goals {
  return {
    ...goals,
    name: saidText(goals.name),
    about: saidText(goals.about),
    wanted: goals.wanted.map((range) => ({
      ...range,
      words: saidText(range.words),
      basis: saidText(range.basis),
      miss: { low: saidText(range.miss.low), high: saidText(range.miss.high) },
    })),
    chains: goals.chains.map((chain) => ({
      ...chain,
      name: saidText(chain.name),
      leadsTo: saidText(chain.leadsTo),
      basis: saidText(chain.basis),
      links: chain.links.map((link) => ({ ...link, words: saidText(link.words) })),
    })),
  };
}
