import { useEffect, useMemo, useRef } from 'react';
import type { BookClip } from '../../core/model/book.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { drawListOf } from '../../core/painting/draw-list.ts';
import { setBenchMarks, setBenchPicture } from '../canvas/bench-content.ts';
import { benchView, centre, reach, resize, showWhole } from '../canvas/bench-view.ts';
import { createStage } from '../canvas/stage.ts';
import type { Stage } from '../canvas/stage.ts';
import { sendToRepeat, setRepeatExact } from './state/repeat-check.ts';
import { placedHere } from '../tools/repeat-tool.ts';
import type { RepeatRound } from '../tools/repeat-tool.ts';
import styles from '../bench/bench-page.module.css';
import { PictureFilter } from '../bench/surface/picture-filter.tsx';
import { RepeatLoupe } from './repeat-loupe.tsx';
import { ringsOf } from '../bench/surface/rings.ts';
import { NO_SOURCES } from '../bench/surface/shown-sources.ts';
import { useBenchPointer } from '../bench/surface/use-bench-pointer.ts';
import { usePicture } from '../bench/surface/use-picture.ts';
import type { PictureSource } from '../bench/surface/use-picture.ts';

/**
 * The bench's stage with a frame as it was filmed: no mark of it is drawn, neither its own nor one carried to it. Only
 * what was placed since it was brought up is in sight, as in any guided run.
 */
export function RepeatCanvas(props: {
  readonly clip: BookClip;
  readonly frames: ClipIndex['frames'];
  readonly index: number;
  readonly run: RepeatRound;
  readonly exact: boolean;
  readonly missed: boolean;
  readonly words: string;
}) {
  const { clip, frames, index, run, exact, missed, words } = props;
  const wrapRef = useRef<HTMLDivElement>(null);
  const hostRef = useRef<HTMLDivElement>(null);
  const pictureRef = useRef<HTMLCanvasElement>(null);
  const stageRef = useRef<Stage | null>(null);
  const source = useMemo(() => exactPictureOf(index), [index]);
  const repaint = usePicture(pictureRef, clip, frames, source);
  const panning = useBenchPointer(wrapRef, cancelPlacing);

  // Every frame comes up whole, so that one that comes again is found as it was.
  useEffect(() => {
    showWhole({ width: clip.width, height: clip.height });
  }, [clip.width, clip.height, run.at]);

  useEffect(() => {
    const host = hostRef.current;
    if (host === null) return;
    // fabric wraps the canvas in elements of its own, so it gets one that React does not know.
    const element = document.createElement('canvas');
    host.append(element);
    const send = (type: 'down' | 'move' | 'up') => (at: { x: number; y: number }) => {
      sendToRepeat({ type, at }, reach(), centre());
    };
    const stage = createStage(element, { down: send('down'), move: send('move'), up: send('up') });
    stageRef.current = stage;
    const follow = () => {
      const { view, size } = benchView.get();
      stage.setView(view, size.width, size.height);
      repaint.current();
    };
    follow();
    const stop = benchView.subscribe(follow);
    return () => {
      stop();
      stageRef.current = null;
      void stage.dispose().then(() => host.replaceChildren());
    };
  }, [repaint]);

  const points = run.draft ?? placedHere(run);
  const marks = useMemo(() => ({ frame: { index, pts: 0 }, points, shapes: [] }), [index, points]);
  useEffect(() => {
    const items = drawListOf(marks, { look: 'plain', width: clip.width, height: clip.height });
    stageRef.current?.setMarks(items, ringsOf(marks, run.selected, NO_SOURCES));
    setBenchMarks(items);
  }, [marks, run.selected, clip.width, clip.height]);

  return (
    <div
      ref={wrapRef}
      className={styles.stage}
      tabIndex={0}
      role="application"
      aria-label={`${words}, ${exact ? 'exact' : 'coming'}`}
      data-picture={exact ? 'exact' : 'coming'}
      data-tool="points"
      data-panning={panning}
    >
      <canvas ref={pictureRef} aria-hidden="true" />
      <div ref={hostRef} className={styles.over} />
      <RepeatLoupe clip={clip} run={run} exact={exact} stageRef={wrapRef} />
      <PictureFilter stageRef={wrapRef} />
      {exact && !missed ? null : (
        <div className={styles.state}>
          <span>{exact ? null : 'The exact picture is coming'}</span>
          <span role="status">{missed ? 'Not placed: the picture was not there yet. Please press again.' : null}</span>
        </div>
      )}
    </div>
  );
}

/** Nothing is shown of a frame before its exact picture: how a hand finds what it sees is measured. */
function exactPictureOf(index: number): PictureSource {
  return {
    exactOnly: true,
    view: () => benchView.get().view,
    resized: resize,
    wanted: () => ({ index }),
    shown(picture, _, quality) {
      setBenchPicture(picture);
      setRepeatExact(quality === 'sharp');
    },
    gone: () => setBenchPicture(null),
  };
}

function cancelPlacing(): void {
  sendToRepeat({ type: 'cancel' }, reach(), centre());
}
