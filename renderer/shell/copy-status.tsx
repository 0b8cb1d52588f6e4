import { lowered, say } from '../../core/model/say.ts';
import type { BookClip } from '../../core/model/book.ts';
import { VIEW_LABELS } from '../../core/model/words.ts';
import type { CopyState } from '../../electron/frames/contract.ts';
import { app } from './state/app-state.ts';
import { useStore } from './state/store.ts';
import styles from './app.module.css';
import { feed } from '../swing/feed.ts';
import { Button } from '../controls/button.tsx';
import { countInWords } from './words.ts';

/** Of several copies the one that has most to say. */
const FIRST: readonly CopyState['doing'][] = ['making', 'failed', 'stopped'];

/**
 * How far the clips of the open swing are prepared for quick stepping, and how to stop that or go on. In the head, whose
 * height stays: nothing may shift under a hand that places a point. Nothing waits for it; frames not prepared yet only
 * take longer.
 */
export function CopyStatus() {
  const clips = useStore(app, (state) => state.swing?.clips);
  const copies = useStore(feed.copies, (all) => all);
  const all = (clips ?? []).flatMap((clip) => {
    const copy = copies[clip.id];
    return copy === undefined ? [] : [{ clip, copy }];
  });
  for (const doing of FIRST)
    for (const { clip, copy } of all) if (copy.doing === doing) return <OneCopy clip={clip} copy={copy} />;
  return null;
}

function OneCopy({ clip, copy }: { readonly clip: BookClip; readonly copy: CopyState }) {
  const what = say`Getting the ${lowered(VIEW_LABELS[clip.view])} clip ready`;
  const part = copy.total === 0 ? 0 : Math.min(1, copy.written / copy.total);
  const percent = `${String(Math.floor(part * 100))} %`;
  const goOn = copy.doing !== 'making';
  return (
    <span className={styles.copy} data-state={copy.doing}>
      <span
        role="progressbar"
        aria-label={what}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={Math.floor(part * 100)}
        title={copy.sentence ?? say`${what}: ${countInWords(copy.written)} of ${countInWords(copy.total)} frames`}
      >
        {copy.doing === 'failed'
          ? say`Not ready: ${copy.sentence ?? ''}`
          : goOn
            ? say`Stopped, ${percent} ready`
            : say`Clip ${percent} ready`}
      </span>
      <Button small label={`${goOn ? say`Go on` : say`Stop`}: ${what}`} onPress={() => feed.setMaking(clip.id, goOn)}>
        {goOn ? say`Go on` : say`Stop`}
      </Button>
    </span>
  );
}
