import type { Chain, ChainLink, Goals, WantedRange } from '../../../core/model/goals.ts';

/** Invented goals; every limit and word in them is made up. */

export function range(changed: Partial<WantedRange>): WantedRange {
  return {
    reading: 'hip-rise',
    aspect: 'value',
    ...{ views: [], checkpoints: [], clubs: [], from: -2, to: 3, unit: 'cm' },
    ...{ words: 'The seat stays at its height.', basis: 'invented', miss: { low: 'Fat.', high: 'Thin.' } },
    ...changed,
  };
}

export function link(changed: Partial<ChainLink>): ChainLink {
  return {
    ...{ reading: 'head-shift', aspect: 'value', view: 'face-on', checkpoint: 'top', miss: 'minus' },
    words: 'The head drifts away.',
    ...changed,
  };
}

export function chain(links: readonly ChainLink[]): Chain {
  return { name: 'Drift', links, leadsTo: 'Ground first.', basis: 'invented' };
}

export function sampleGoals(): Goals {
  return {
    name: 'My own',
    about: 'Invented for a test.\nOn two lines.',
    wanted: [
      range({ views: ['down-the-line'], checkpoints: ['top', 'impact'], clubs: ['Driver', '7 iron'] }),
      range({ reading: 'hip-line', aspect: 'change', from: null, to: null, unit: 'deg' }),
      range({ reading: null, from: 0.1, to: null, unit: '% leg length' }),
    ],
    tolerances: [{ reading: 'tempo', aspect: 'value', unit: 'ratio', within: 0.25 }],
    chains: [chain([link({}), link({ reading: 'upper-centre-shift', checkpoint: 'impact', miss: 'moved-down' })])],
  };
}
