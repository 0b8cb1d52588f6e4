import { memo, useRef, useState } from 'react';
import { say } from '../../../core/model/say.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { app } from '../../shell/state/app-state.ts';
import { goTo, stepBy } from '../state/bench-actions.ts';
import { stopPlayback } from './state/playback.ts';
import { settings } from '../../shell/state/settings.ts';
import { useStore } from '../../shell/state/store.ts';
import styles from './time-bar.module.css';
import { placeDamage } from './damage-marks.ts';
import { Button } from '../../controls/button.tsx';
import { FilmStrip, PresentFrame } from './film-strip.tsx';
import { FlagOnStrip } from './flag-on-strip.tsx';
import { placeFlags } from './flags.ts';
import { RateDialog } from '../../swing/rate-dialog.tsx';
import { LoopShade } from './loop-shade.tsx';
import { PlaybackControls, PlaybackWords } from './playback-controls.tsx';
import { onBench } from './state/playback-place.ts';
import { useWidth } from '../../shell/use-width.ts';
import { captureRateInWords, frameInWords, shortRateInWords } from '../../shell/words.ts';

/** Which frame this is, and every way to another one. */
export const TimeBar = memo(function TimeBar({ clip, index }: { readonly clip: BookClip; readonly index: ClipIndex }) {
  const at = useStore(app, (state) => state.bench?.index ?? 0);
  const textSize = useStore(settings, (state) => state.textSize);
  const [askRate, setAskRate] = useState(false);
  const stripRef = useRef<HTMLDivElement>(null);
  const width = useWidth(stripRef);
  const last = index.frames.length - 1;
  const rate = captureRateInWords(clip.captureRate);
  return (
    <div className={styles.time}>
      <PlaybackControls clip={clip} place={onBench} />
      <div className={styles.strip} ref={stripRef} data-flags>
        {placeFlags(clip, last, width, textSize).map((flag) => (
          <FlagOnStrip
            key={flag.checkpoint}
            {...{ clip, index, flag, width, stripRef }}
            here={clip.checkpoints[flag.checkpoint]?.index === at}
          />
        ))}
        <div className={styles.film}>
          <FilmStrip clip={clip} index={index} width={width} />
          <input
            type="range"
            min={0}
            max={last}
            step={1}
            value={at}
            aria-label={say`Frame`}
            aria-valuetext={frameInWords(clip, index, at)}
            onChange={(event) => goTo(Number(event.target.value))}
          />
          <div className={styles.spans}>
            <LoopShade clip={clip} index={index} width={width} />
          </div>
        </div>
        <PresentFrame last={last} width={width} />
        {index.damage.length === 0 ? null : (
          <div className={styles.damage}>
            {placeDamage(index, width).map(({ left, width: wide, text }) => (
              <span key={text} role="img" aria-label={text} title={text} style={{ left, width: wide }} />
            ))}
          </div>
        )}
      </div>
      <div className={styles.steps}>
        <div className={styles.at}>
          <span className={styles.frame} role="status" aria-live="off">
            {frameInWords(clip, index, at)}
          </span>
          <PlaybackWords />
        </div>
        <div className={styles.row}>
          <Button small look="quiet" label={say`−1, one frame back`} onPress={() => stepBy(-1)}>
            −1
          </Button>
          <FrameField key={at} at={at} />
          <Button small look="quiet" label={say`+1, one frame on`} onPress={() => stepBy(1)}>
            +1
          </Button>
          <Button small look="quiet" label={say`Capture rate: ${rate}. Change it`} onPress={() => setAskRate(true)}>
            {shortRateInWords(clip.captureRate)}
          </Button>
        </div>
      </div>
      {askRate ? <RateDialog clip={clip} onClose={() => setAskRate(false)} /> : null}
    </div>
  );
});

/** Shows the frame's number; another one typed and Enter goes there. */
function FrameField({ at }: { readonly at: number }) {
  const [text, setText] = useState(String(at));
  const go = () => {
    const wanted = Number(text);
    if (text.trim() !== '' && Number.isInteger(wanted)) goTo(wanted);
    else setText(String(at));
  };
  return (
    <input
      className={styles.jump}
      aria-label={say`Go to frame`}
      title={say`Type a frame and press Enter`}
      inputMode="numeric"
      value={text}
      onChange={(event) => setText(event.target.value)}
      onKeyDown={(event) => {
        if (event.key === 'Enter') go();
        if (event.key === 'Escape') setText(String(at));
      }}
      onBlur={() => setText(String(at))}
      onFocus={(event) => {
        // Each frame of a run has a field of its own; who types wants to stay.
        stopPlayback();
        event.target.select();
      }}
    />
  );
}
