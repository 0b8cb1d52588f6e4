import { useEffect } from 'react';
import type { RefObject } from 'react';
import { LIFT_ID, exponentOf, filterOf, isPlain, pictureLight } from '../state/picture-light.ts';
import { useStore } from '../../shell/state/store.ts';
import styles from './picture-light.module.css';

/**
 * Shows the picture of a stage in the chosen light: as a filter of the canvas's element, so that the pixels on it stay
 * those of the clip. Says so while it is not the clip's own.
 */
export function PictureFilter({ stageRef }: { readonly stageRef: RefObject<HTMLDivElement | null> }) {
  const look = useStore(pictureLight, (state) => state);
  useEffect(() => {
    const canvas = stageRef.current?.querySelector<HTMLCanvasElement>(':scope > canvas[aria-hidden]');
    if (canvas) canvas.style.filter = filterOf(look);
  }, [stageRef, look]);
  if (isPlain(look)) return null;
  const exponent = exponentOf(look.lift);
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
