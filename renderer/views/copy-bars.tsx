import { VIEW_LABELS } from '../../core/model/words.ts';
import { app } from '../state/app.ts';
import { useStore } from '../state/store.ts';
import styles from './app.module.css';
import { feed } from './feed.ts';
import { Button } from './parts/button.tsx';
import { countInWords } from './words.ts';

/**
 * The scrub copies that are being made of the open swing's clips: how far, and how to stop or go on. Nothing waits for
 * them; frames they do not hold yet only take longer.
 */
export function CopyBars() {
  const clips = useStore(app, (state) => state.swing?.clips);
  const copies = useStore(feed.copies, (all) => all);
  return (clips ?? []).map((clip) => {
    const copy = copies[clip.id];
    if (copy === undefined || copy.doing === 'whole' || copy.doing === 'waiting') return null;
    const view = VIEW_LABELS[clip.view].toLowerCase();
    const label = `Preparing the clip ${view} for quick stepping`;
    const far = `${countInWords(copy.written)} of ${countInWords(copy.total)} frames`;
    const part = copy.total === 0 ? 0 : Math.min(1, copy.written / copy.total);
    const goOn = copy.doing !== 'making';
    return (
      <div key={clip.id} className={styles.bar} data-slim>
        <div
          role="progressbar"
          aria-label={label}
          aria-valuemin={0}
          aria-valuemax={100}
          aria-valuenow={Math.round(part * 100)}
          className={styles.track}
        >
          <div className={styles.fill} style={{ width: `${String(part * 100)}%` }} />
        </div>
        <p>
          {copy.doing === 'failed' && copy.sentence !== null
            ? `${copy.sentence} Stepping ${view} works, slower.`
            : `${copy.doing === 'stopped' ? `Stopped: ${label.toLowerCase()}` : label}: ${far}`}
        </p>
        <Button small label={`${goOn ? 'Go on' : 'Stop'}: ${label}`} onPress={() => feed.setMaking(clip.id, goOn)}>
          {goOn ? 'Go on' : 'Stop'}
        </Button>
      </div>
    );
  });
}
