import { memo, useEffect } from 'react';
import { say } from '../../../core/model/say.ts';
import type { BookClip } from '../../../core/model/book.ts';
import { seenOf } from '../../canvas/shown-picture.ts';
import {
  clearEnds,
  connectPlayback,
  endsOf,
  loopFromHere,
  loopToHere,
  run,
  setSlowing,
  stopPlayback,
  toggleLoop,
  togglePlayback,
} from './state/playback.ts';
import type { PlaybackPlace } from './state/playback-place.ts';
import { SLOWINGS, playbackInWords } from './state/playback-schedule.ts';
import type { Slowing } from './state/playback-schedule.ts';
import { useStore } from '../../shell/state/store.ts';
import { Button } from '../../controls/button.tsx';
import styles from './playback-controls.module.css';

const SPEED_LABELS: Readonly<Record<Slowing, string>> = { 1: '1x', 2: '1/2x', 4: '1/4x', 8: '1/8x' };

export interface PlaybackControlsProps {
  readonly clip: BookClip;
  readonly place: PlaybackPlace;
  /** Beside each other, where there is width and no height. */
  readonly inOneRow?: boolean;
}

/** Runs through the frames: start and stop, how fast, and over which of them again and again. */
export const PlaybackControls = memo(function PlaybackControls({
  clip,
  place,
  inOneRow = false,
}: PlaybackControlsProps) {
  const running = useStore(run, (state) => state.running);
  const slowing = useStore(run, (state) => state.slowing);
  const loops = useStore(run, (state) => state.loops);
  const ends = useStore(run, (state) => endsOf(state, clip.id));
  const hasEnds = ends.start !== null || ends.end !== null;
  usePlaybackInWindow(place);
  return (
    <div className={inOneRow ? styles.row : styles.run} role="group" aria-label={say`Playback`}>
      <Button small look={running ? 'main' : 'plain'} onPress={togglePlayback}>
        {running ? say`Stop` : say`Play`}
      </Button>
      <select
        className={styles.speed}
        aria-label={say`Playback speed`}
        title={say`Part of the speed at which the file plays`}
        value={slowing}
        onChange={(event) => {
          const chosen = SLOWINGS.find((each) => String(each) === event.target.value);
          if (chosen !== undefined) setSlowing(chosen);
        }}
      >
        {SLOWINGS.map((each) => (
          <option key={each} value={each}>
            {SPEED_LABELS[each]}
          </option>
        ))}
      </select>
      <div className={styles.loop}>
        <Button small look={loops ? 'main' : 'quiet'} pressed={loops} onPress={toggleLoop}>{say`Loop`}</Button>
        <Button small look="quiet" label={say`Loop from this frame`} onPress={loopFromHere}>{say`Loop from`}</Button>
        <Button small look="quiet" label={say`Loop to this frame`} onPress={loopToHere}>{say`Loop to`}</Button>
        {hasEnds ? (
          <Button small look="quiet" label={say`Loop over the whole clip again`} onPress={() => clearEnds(clip.id)}>
            ×
          </Button>
        ) : null}
      </div>
    </div>
  );
});

/** What the run does, in words beside the number of the frame; nothing while there is none. */
export function PlaybackWords() {
  const words = useStore(run, ({ running, every }) => (running ? playbackInWords(every) : null));
  return words === null ? null : <span className={styles.words}>{words}</span>;
}

/** Lends runs this window while the place is in it: its refresh, and what is on its canvases. */
function usePlaybackInWindow(place: PlaybackPlace): void {
  useEffect(() => {
    const takeAway = connectPlayback({
      place,
      seen: seenOf,
      atRefresh(callback) {
        const id = requestAnimationFrame(callback);
        return () => cancelAnimationFrame(id);
      },
    });
    const onHidden = () => document.hidden && stopPlayback();
    document.addEventListener('visibilitychange', onHidden);
    return () => {
      document.removeEventListener('visibilitychange', onHidden);
      takeAway();
    };
  }, [place]);
}
