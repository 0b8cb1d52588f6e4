import { useEffect } from 'react';
import type { RefObject } from 'react';
import { exponentOf, isPlain, pictureLook } from '../state/picture-look.ts';
import { useStore } from '../state/store.ts';
import styles from './picture-look.module.css';

const LIFT_ID = 'lift-shadows';

/**
 * Shows the picture of a stage in the chosen light: as a filter of the canvas's element, so that the pixels on it stay
 * those of the clip. Says so while it is not the clip's own.
 */
export function PictureFilter({ stageRef }: { readonly stageRef: RefObject<HTMLDivElement | null> }) {
  const look = useStore(pictureLook, (state) => state);
  const { brightness, contrast, lift } = look;
  const plain = isPlain(look);
  useEffect(() => {
    const canvas = stageRef.current?.querySelector<HTMLCanvasElement>(':scope > canvas[aria-hidden]');
    const lifted = lift === 0 ? '' : ` url(#${LIFT_ID})`;
    if (canvas) canvas.style.filter = plain ? '' : `brightness(${brightness}) contrast(${contrast})${lifted}`;
  }, [stageRef, plain, brightness, contrast, lift]);
  if (plain) return null;
  const exponent = exponentOf(lift);
  return (
    <>
      <svg className={styles.filter} aria-hidden="true">
        <filter id={LIFT_ID} colorInterpolationFilters="sRGB">
          <feComponentTransfer>
            <feFuncR type="gamma" exponent={exponent} />
            <feFuncG type="gamma" exponent={exponent} />
            <feFuncB type="gamma" exponent={exponent} />
          </feComponentTransfer>
        </filter>
      </svg>
      <span className={styles.told}>Light changed for the eye only</span>
    </>
  );
}
