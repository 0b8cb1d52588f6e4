import { say } from '../../model/say.ts';
import type { WantedRange } from '../../model/goals.ts';
import { VIEWS } from '../../model/words.ts';
import { CATALOGUE } from '../catalogue/catalogue.ts';
import { isReadAt, whyWithdrawn } from '../catalogue/where-read.ts';

/**
 * Why a wanted range holds for nothing any more at one of the checkpoints that it names, or nowhere; null where it still
 * holds. The range itself stays as the coach wrote it.
 */
export function withdrawnWords({ reading, views, checkpoints }: WantedRange): string | null {
  if (reading === null) return null;
  const within = views.length === 0 ? VIEWS : views;
  const at = checkpoints.length === 0 ? CATALOGUE[reading].checkpoints : checkpoints;
  const places = at.map((checkpoint) => within.map((view) => ({ id: reading, view, checkpoint })));
  const lost = places.filter((each) => !each.some(isReadAt));
  const isLost = checkpoints.length === 0 ? lost.length === places.length : lost.length > 0;
  const why = isLost
    ? lost
        .flat()
        .map(whyWithdrawn)
        .find((words) => words !== null)
    : undefined;
  return why === undefined ? null : say`No longer read here. ${why}`;
}
