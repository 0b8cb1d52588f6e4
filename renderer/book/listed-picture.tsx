import { useEffect, useRef, useState } from 'react';
import { followListed } from './follow-listed.ts';
import type { ListedFrame } from './state/list-pictures.ts';
import styles from './listed-picture.module.css';

/** The small picture of a frame in a list; a soft place until it is there, and where there is none. */
export function ListedPicture({ of, size }: { readonly of: ListedFrame | null; readonly size: 'student' | 'lesson' }) {
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const isNear = useNear(canvasRef);
  const [clip, frame] = [of?.clip, of?.frame];
  useEffect(() => {
    if (!isNear || clip === undefined || frame === undefined) return;
    return followListed({ clip, frame }, (picture) => {
      const canvas = canvasRef.current;
      // One that is closed since it came has no size; the soft place stays.
      if (canvas === null || picture.width === 0) return;
      canvas.width = picture.width;
      canvas.height = picture.height;
      canvas.getContext('2d', { alpha: false })?.drawImage(picture, 0, 0);
      canvas.dataset['listed'] = String(frame);
    });
  }, [isNear, clip, frame]);
  return <canvas ref={canvasRef} className={styles[size]} aria-hidden="true" />;
}

/** Whether the element is in sight or nearly so; once it was, it stays so. */
function useNear(ref: React.RefObject<HTMLElement | null>): boolean {
  const [isNear, setNear] = useState(false);
  useEffect(() => {
    const element = ref.current;
    if (element === null || isNear) return;
    const observer = new IntersectionObserver((entries) => {
      if (entries.some((entry) => entry.isIntersecting)) setNear(true);
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, [ref, isNear]);
  return isNear;
}
