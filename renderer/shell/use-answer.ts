import { useEffect, useState } from 'react';
import { createPlace } from './state/place.ts';

/** What was asked for came, or an error in its place. */
export type Came<Answer> = { readonly answer: Answer } | { readonly refused: unknown };

/**
 * What the program answers to `key`, null until it has. An answer to an earlier key, or to a view that is gone, is dropped.
 * `ask` must be the same function for the same kind of question.
 */
export function useAnswer<Key, Answer>(key: Key, ask: (key: Key) => Promise<Answer>): Came<Answer> | null {
  const [place] = useState(createPlace);
  const [came, setCame] = useState<{ readonly key: Key; readonly what: Came<Answer> } | null>(null);
  useEffect(() => {
    place
      .fill(
        () => ask(key),
        (answer) => setCame({ key, what: { answer } }),
      )
      .catch((refused: unknown) => setCame({ key, what: { refused } }));
    return () => place.leave();
  }, [key, ask, place]);
  return came !== null && Object.is(came.key, key) ? came.what : null;
}
