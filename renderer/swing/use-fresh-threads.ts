import { useEffect, useRef } from 'react';
import { restConverting } from '../canvas/convert-samples.ts';
import { app } from '../shell/state/app-state.ts';
import { useStore } from '../shell/state/store.ts';
import { stills } from './feed.ts';
import { freshMeasuring } from './measuring.ts';

/** Once a swing is closed, what its threads and cells hold goes with it: tens of megabytes that nothing sweeps before they are short. */
export function useFreshThreads(): void {
  const open = useStore(app, ({ swing }) => swing !== null);
  const wasOpen = useRef(open);
  useEffect(() => {
    if (wasOpen.current && !open) {
      freshMeasuring();
      restConverting();
      stills.clear();
    }
    wasOpen.current = open;
  }, [open]);
}
