import { useMemo } from 'react';
import { say } from '../../core/model/say.ts';
import type { BookClip } from '../../core/model/book.ts';
import { drawListOf } from '../../core/painting/draw-list.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { ringsOf } from '../bench/surface/rings.ts';
import { NO_SOURCES } from '../bench/surface/shown-sources.ts';
import { Surface } from '../bench/surface/surface.tsx';
import styles from '../bench/surface/surface.module.css';
import type { PictureSource } from '../bench/surface/use-picture.ts';
import { benchView, resize } from '../canvas/bench-view.ts';
import { placedHere } from '../tools/repeat-tool.ts';
import { repeatHand } from './repeat-hand.ts';
import { setRepeatExact } from './state/repeat-check.ts';
import type { PlacingStage } from './state/repeat-check.ts';

/**
 * A frame as it was filmed: no mark of it is drawn, neither its own nor one carried to it. Only what was placed since it
 * was brought up is in sight, as in any guided run. Every frame comes up whole, so that one that comes again is found as
 * it was.
 */
export function RepeatCanvas(props: {
  readonly clip: BookClip;
  readonly frames: ClipIndex['frames'];
  readonly index: number;
  readonly stage: PlacingStage;
  readonly words: string;
}) {
  const { clip, frames, index, words } = props;
  const { run, exact, missed } = props.stage;
  const { width, height } = clip;
  const source = useMemo(() => exactPictureOf(index), [index]);
  const points = run.draft ?? placedHere(run);
  const marks = useMemo(() => {
    const placed = { frame: { index, pts: 0 }, points, shapes: [] };
    const items = drawListOf(placed, { look: 'plain', width, height });
    return { items, rings: ringsOf(placed, run.selected, NO_SOURCES), steady: false };
  }, [index, points, run.selected, width, height]);
  return (
    <Surface
      {...{ clip, frames, source, marks }}
      hand={repeatHand}
      label={exact ? say`${words}, exact` : say`${words}, coming`}
      picture={exact ? 'exact' : 'coming'}
      tool="points"
      showing={run.at}
    >
      {exact && !missed ? null : (
        <div className={styles.state}>
          <span>{exact ? null : say`The exact picture is coming`}</span>
          <span role="status">
            {missed ? say`Not placed: the picture was not there yet. Please press again.` : null}
          </span>
        </div>
      )}
    </Surface>
  );
}

/** Nothing is shown of a frame before its exact picture: how a hand finds what it sees is measured. */
function exactPictureOf(index: number): PictureSource {
  return {
    exactOnly: true,
    view: () => benchView.get().view,
    resized: resize,
    wanted: () => ({ index }),
    shown: (_, quality) => setRepeatExact(quality === 'sharp'),
  };
}
