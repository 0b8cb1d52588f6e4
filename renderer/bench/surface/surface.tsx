import { useCallback, useEffect, useRef } from 'react';
import type { ReactNode } from 'react';
import type { BookClip } from '../../../core/model/book.ts';
import type { Box } from '../../../core/painting/box.ts';
import type { DrawItem } from '../../../core/painting/draw-item.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { benchView, showPicture } from '../../canvas/bench-view.ts';
import { createStage } from '../../canvas/stage.ts';
import type { Stage, StageMarks } from '../../canvas/stage.ts';
import { settings } from '../../shell/state/settings.ts';
import { useStore } from '../../shell/state/store.ts';
import { filterOf, pictureLight } from '../state/picture-light.ts';
import type { Hand } from './hand.ts';
import { LightNote } from './light-note.tsx';
import { Loupe } from './loupe.tsx';
import styles from './surface.module.css';
import { usePicture } from './use-picture.ts';
import type { PictureSource } from './use-picture.ts';
import { usePointer } from './use-pointer.ts';

export interface SurfaceProps {
  readonly clip: Pick<BookClip, 'id' | 'width' | 'height'>;
  readonly frames: ClipIndex['frames'];
  readonly source: PictureSource;
  /** null while there is no such frame: what is drawn stays. */
  readonly marks: StageMarks | null;
  readonly hand: Hand;
  readonly label: string;
  readonly picture: string;
  /** Whether the picture has been coming for so long that the old one must not be taken for it. */
  readonly late?: boolean;
  readonly tool: string;
  /** The part of the picture that is brought up first; without it the whole. */
  readonly player?: Box | null;
  /** Each time it changes, the picture is brought up anew. */
  readonly showing?: number;
  /** Words over the picture. */
  readonly children: ReactNode;
}

/**
 * A frame that is marked on: the picture on a canvas of its own, the marks on a transparent one above it, the enlarged view
 * and words over both; pointer, wheel and fingers. The room says which frame, which marks, and what a hand does to them.
 */
export function Surface(props: SurfaceProps) {
  const { clip, frames, source, marks, hand, label, picture, late, tool, player = null, showing = 0, children } = props;
  const { width, height } = clip;
  const wrapRef = useRef<HTMLDivElement>(null);
  const hostRef = useRef<HTMLDivElement>(null);
  const pictureRef = useRef<HTMLCanvasElement>(null);
  const stageRef = useRef<Stage | null>(null);
  const itemsRef = useRef<readonly DrawItem[]>([]);
  const filter = useStore(pictureLight, filterOf);
  const layer = usePicture(pictureRef, clip, frames, source);
  const panning = usePointer(wrapRef, hand.cancel, { tap: hand.tap });
  const content = useCallback(() => ({ picture: layer.current.picture(), marks: itemsRef.current }), [layer]);

  // Points that are placed meanwhile do not move the picture under the hand.
  const first = useRef(player);
  useEffect(() => {
    showPicture({ width, height }, first.current);
  }, [width, height, showing]);

  useEffect(() => {
    const host = hostRef.current;
    if (host === null) return;
    // fabric wraps the canvas in elements of its own, so it gets one that React does not know.
    const element = document.createElement('canvas');
    host.append(element);
    const stage = createStage(element, (type, at) => void hand.send({ type, at }));
    stageRef.current = stage;
    const follow = () => {
      const { view, size } = benchView.get();
      stage.setView(view, size.width, size.height);
      layer.current.repaint();
    };
    follow();
    // The text beside the marks has the size of all other text.
    const stops = [benchView.subscribe(follow), settings.subscribe(follow)];
    return () => {
      for (const stop of stops) stop();
      stageRef.current = null;
      void stage.dispose().then(() => host.replaceChildren());
    };
  }, [hand, layer]);

  useEffect(() => {
    if (marks === null) return;
    stageRef.current?.setMarks(marks);
    itemsRef.current = marks.items;
  }, [marks]);

  return (
    <div
      ref={wrapRef}
      className={styles.stage}
      tabIndex={0}
      role="application"
      aria-label={label}
      data-picture={picture}
      data-late={late}
      data-tool={tool}
      data-panning={panning}
    >
      <canvas ref={pictureRef} aria-hidden="true" style={{ filter }} />
      <div ref={hostRef} className={styles.over} />
      <Loupe size={clip} hand={hand} content={content} stageRef={wrapRef} />
      <LightNote />
      {children}
    </div>
  );
}
