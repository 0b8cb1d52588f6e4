import { say } from '../../model/say.ts';
import { BOTH_VIEWS, VALUE, plausibly } from './entry.ts';
import type { TimedEntry } from './entry.ts';
import { NO_SKETCH } from './sketch.ts';

/** Seconds from the first to the last of the times. */
const span = (times: readonly number[]): number | null => {
  const [first, last] = [times[0], times.at(-1)];
  return first === undefined || last === undefined ? null : last - first;
};

export const TIME_ENTRIES = {
  backswing: {
    label: say`Backswing from takeaway`,
    formula: say`Time from takeaway to top.`,
    sign: null,
    views: BOTH_VIEWS,
    checkpoints: ['top'],
    aspects: VALUE,
    quantity: 'time',
    spans: ['takeaway', 'top'],
    compute: span,
    isSize: true,
    plausible: [plausibly('s', 0.25, 3)],
    sketch: NO_SKETCH,
  },
  downswing: {
    label: say`Downswing`,
    formula: say`Time from top to impact.`,
    sign: null,
    views: BOTH_VIEWS,
    checkpoints: ['impact'],
    aspects: VALUE,
    quantity: 'time',
    spans: ['top', 'impact'],
    compute: span,
    isSize: true,
    // From memory, no source at hand: what players of all kinds take. Outside of it the capture rate is mostly wrong.
    plausible: [plausibly('s', 0.18, 0.4)],
    sketch: NO_SKETCH,
  },
  tempo: {
    label: say`Tempo from takeaway`,
    formula: say`Backswing time as a ratio to downswing time, counted from the takeaway (shaft level): about 2 to 1 where counting from the first move gives about 3 to 1. It needs no real rate.`,
    sign: null,
    views: BOTH_VIEWS,
    checkpoints: ['impact'],
    aspects: VALUE,
    quantity: 'time-ratio',
    spans: ['takeaway', 'top', 'impact'],
    compute: ([takeaway, top, impact]) => {
      if (takeaway === undefined || top === undefined || impact === undefined || impact === top) return null;
      return (top - takeaway) / (impact - top);
    },
    isSize: true,
    plausible: [plausibly('ratio', 0.8, 8)],
    sketch: NO_SKETCH,
  },
} as const satisfies Record<string, TimedEntry>;
