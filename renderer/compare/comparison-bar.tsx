import { say } from '../../core/model/say.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';
import { checkpointsToShow } from '../../core/report/checkpoints.ts';
import { PlaybackControls } from '../bench/playback/playback-controls.tsx';
import { Button } from '../controls/button.tsx';
import { app } from '../shell/state/app-state.ts';
import { keyTitle } from '../shell/key-words.ts';
import { useStore } from '../shell/state/store.ts';
import type { Both } from './comparison-page.tsx';
import { laidWords } from './laid-words.ts';
import styles from './comparison-page.module.css';
import {
  compareView,
  comparableViews,
  goToCompared,
  layBy,
  laying,
  stepCompared,
  thenAndNow,
} from './state/comparing.ts';

/** Below the pictures: which frame, which view, and how then lies to now. */
export function ComparisonBar({ both }: { readonly both: Both }) {
  return (
    <div className={styles.bar}>
      <PlaybackControls clip={both.now.clip} place={thenAndNow} inOneRow />
      <Frames both={both} />
      <Views both={both} />
      <LaidBy both={both} />
      <Checkpoints both={both} />
    </div>
  );
}

function Checkpoints({ both: { now, then } }: { readonly both: Both }) {
  const at = useStore(app, (state) => state.comparing?.index ?? 0);
  const named = checkpointsToShow([then.swing, now.swing], now.clip.view, CHECKPOINTS);
  return (
    <div className={styles.group} role="group" aria-label={say`Named frames of both`}>
      {named.map((checkpoint) => {
        const frame = now.clip.checkpoints[checkpoint]?.index ?? 0;
        return (
          <button
            key={checkpoint}
            type="button"
            className={styles.choice}
            aria-pressed={frame === at}
            onClick={() => goToCompared(frame)}
          >
            {CHECKPOINT_LABELS[checkpoint]}
          </button>
        );
      })}
    </div>
  );
}

function Frames({ both: { now } }: { readonly both: Both }) {
  const at = useStore(app, (state) => state.comparing?.index ?? 0);
  return (
    <div className={styles.frames}>
      <Button small look="quiet" label={say`One frame back. ${keyTitle('step-back')}`} onPress={() => stepCompared(-1)}>
        ‹
      </Button>
      <input
        type="range"
        aria-label={say`Frame of now`}
        min={0}
        max={now.index.frames.length - 1}
        value={at}
        onChange={(event) => goToCompared(Number(event.target.value))}
      />
      <Button small look="quiet" label={say`One frame on. ${keyTitle('step-on')}`} onPress={() => stepCompared(1)}>
        ›
      </Button>
    </div>
  );
}

function Views({ both }: { readonly both: Both }) {
  const views = useStore(app, (state) => comparableViews(state).join());
  const all = comparableViews(app.get());
  if (views === '' || all.length < 2) return null;
  return (
    <div className={styles.group} role="group" aria-label={say`View`}>
      {all.map((view) => (
        <button
          key={view}
          type="button"
          className={styles.choice}
          aria-pressed={view === both.now.clip.view}
          onClick={() => compareView(view)}
        >
          {VIEW_LABELS[view]}
        </button>
      ))}
    </div>
  );
}

function LaidBy({ both: { laid } }: { readonly both: Both }) {
  const by = useStore(laying, (state) => state.by);
  const words = laidWords(laid);
  return (
    <div className={styles.group} role="group" aria-label={say`Then and now`}>
      {(['beside', 'over'] as const).map((each) => (
        <button
          key={each}
          type="button"
          className={styles.choice}
          aria-pressed={by === each}
          title={each === 'over' ? `${words} ${keyTitle('lay-over')}` : keyTitle('lay-over')}
          onClick={() => layBy(each)}
        >
          {each === 'beside' ? say`Side by side` : say`One over the other`}
        </button>
      ))}
    </div>
  );
}
