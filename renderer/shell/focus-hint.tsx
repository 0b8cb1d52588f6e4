import { useEffect, useState } from 'react';
import styles from './focus-hint.module.css';

interface Hint {
  readonly words: string;
  /** Of the window, px, and which part of the hint lies there. */
  readonly left: number;
  readonly part: 'start' | 'middle' | 'end';
  /** From the top of the window, or from its bottom where there is no room below. */
  readonly edge: 'top' | 'bottom';
  readonly away: number;
}

/** Whoever goes on by keys rests this long on what is meant, ms. */
const REST_MS = 450;
const GAP = 6;
/** Room that a hint takes, px: two lines of it, and half of the longest. */
const ROOM = { height: 64, half: 180 } as const;

/**
 * What the pointer shows of a control by resting on it, for whoever goes there by keys: its words and its key. Readers of
 * the screen hear the same from the control itself.
 */
export function FocusHint() {
  const [hint, setHint] = useState<Hint | null>(null);
  useEffect(() => {
    let resting: number | null = null;
    const hide = (): void => {
      if (resting !== null) window.clearTimeout(resting);
      resting = null;
      setHint(null);
    };
    const onFocus = ({ target }: FocusEvent): void => {
      hide();
      if (!(target instanceof HTMLElement) || !target.matches(':focus-visible')) return;
      resting = window.setTimeout(() => setHint(hintOf(target)), REST_MS);
    };
    const listening = new AbortController();
    const { signal } = listening;
    document.addEventListener('focusin', onFocus, { signal });
    for (const type of ['focusout', 'keydown', 'pointerdown', 'wheel'] as const)
      document.addEventListener(type, hide, { capture: true, passive: true, signal });
    return () => {
      hide();
      listening.abort();
    };
  }, []);
  if (hint === null) return null;
  const { words, left, part, edge, away } = hint;
  return (
    <div className={styles.hint} aria-hidden="true" data-part={part} style={{ left, [edge]: away }}>
      {words}
    </div>
  );
}

/** Null for what has nothing to say beyond the words that stand on it. */
function hintOf(element: HTMLElement): Hint | null {
  const words = element.title;
  if (words === '' || words === element.textContent) return null;
  const { left, right, bottom, top } = element.getBoundingClientRect();
  const below = window.innerHeight - bottom > ROOM.height;
  const middle = (left + right) / 2;
  const part = middle < ROOM.half ? 'start' : middle > window.innerWidth - ROOM.half ? 'end' : 'middle';
  return {
    words,
    part,
    left: { start: left, middle, end: right }[part],
    edge: below ? 'top' : 'bottom',
    away: below ? bottom + GAP : window.innerHeight - top + GAP,
  };
}
