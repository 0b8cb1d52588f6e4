import { useEffect, useState } from 'react';
import type { SwingOfClip } from '../../core/model/proposal.ts';
import { ask, onJobReport } from '../api.ts';

/** How far the search is, then what it found. `trouble`: it gave up; the part is then chosen by hand. */
export type SwingSearch =
  | { readonly state: 'looking'; readonly share: number }
  | { readonly state: 'found'; readonly swings: readonly SwingOfClip[] }
  | { readonly state: 'trouble' };

/** Looks through a chosen file for its swings while `wanted`, and stops when nobody waits for it any more. */
export function useFoundSwings(path: string, wanted: boolean): SwingSearch {
  const [search, setSearch] = useState<SwingSearch>({ state: 'looking', share: 0 });
  useEffect(() => {
    if (!wanted) return undefined;
    const jobId = crypto.randomUUID();
    let isWaitedFor = true;
    const stopListening = onJobReport((report) => {
      if (report.jobId === jobId && report.total !== null)
        setSearch({ state: 'looking', share: report.done / report.total });
    });
    ask('clip/find-swings', { jobId, path })
      .then(
        (swings) => isWaitedFor && setSearch({ state: 'found', swings }),
        () => isWaitedFor && setSearch({ state: 'trouble' }),
      )
      .finally(stopListening);
    return () => {
      isWaitedFor = false;
      stopListening();
      // One that is over by now has nothing to stop.
      ask('job/cancel', { jobId }).catch(() => undefined);
    };
  }, [path, wanted]);
  return search;
}
