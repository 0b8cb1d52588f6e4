import { useEffect, useState } from 'react';

/** Longer than a step takes that is not fetched ahead: what comes sooner is not waited for by anybody. */
const LATE_MS = 250;

/** Whether something has been coming for longer than anyone would not notice. */
export function useLate(isComing: boolean): boolean {
  const [late, setLate] = useState(false);
  useEffect(() => {
    if (!isComing) return;
    const timer = setTimeout(() => setLate(true), LATE_MS);
    return () => {
      clearTimeout(timer);
      setLate(false);
    };
  }, [isComing]);
  return late;
}
