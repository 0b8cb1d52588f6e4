import { useEffect, useRef, useState } from 'react';
import type { ReactNode } from 'react';
import styles from './surface.module.css';

/** How near a pointer may come before the hint gives way, CSS pixels. */
const NEAR = 24;

/** What to do next, over the picture: at its top, and at its bottom while a hand is at work up there. */
export function Hint({ children }: { readonly children: ReactNode }) {
  const ref = useRef<HTMLSpanElement>(null);
  const [low, setLow] = useState(false);
  useEffect(() => {
    const hint = ref.current;
    const surface = hint?.parentElement;
    if (!hint || !surface) return;
    const giveWay = ({ clientX, clientY }: PointerEvent): void => {
      const { left, right, top, bottom } = hint.getBoundingClientRect();
      const isAcross = clientX > left - NEAR && clientX < right + NEAR;
      if (isAcross && clientY > top - NEAR && clientY < bottom + NEAR) setLow((was) => !was);
    };
    surface.addEventListener('pointermove', giveWay, { passive: true });
    return () => surface.removeEventListener('pointermove', giveWay);
  }, []);
  return (
    <span ref={ref} className={styles.hint} data-low={low}>
      {children}
    </span>
  );
}
