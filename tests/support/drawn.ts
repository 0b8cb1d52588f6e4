import { execFileSync } from 'node:child_process';
import { sized } from './sized.ts';

/**
 * What the draw goes by: hexadecimal, the commit at hand, so that each commit tries others and a run of the same commit
 * tries the same. BAYBOOK_DRAW=<that commit> repeats its draw. Without git it is always the same draw.
 */
const SEED = process.env['BAYBOOK_DRAW'] ?? commitAtHand();

/**
 * Of checks of one kind, one a commit (or `count` that follow one another), and all of them in the long run. Where several
 * things are to be checked, `place` is the thing's number in its list: neighbours draw neighbours, so that each check is
 * tried on as many things as any other.
 */
export function drawn<Check>(checks: readonly Check[], place = 0, count = 1): readonly Check[] {
  const first = (Number.parseInt(SEED.slice(0, 8), 16) + place) % checks.length;
  return sized([...checks.slice(first), ...checks].slice(0, Math.min(count, checks.length)), checks);
}

function commitAtHand(): string {
  try {
    const words = ['-C', import.meta.dirname, 'rev-parse', 'HEAD'];
    return execFileSync('git', words, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).trim();
  } catch {
    return '0';
  }
}
