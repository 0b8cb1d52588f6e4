import type { LaidOver } from '../../core/compare/lay-over.ts';
import { zoomByKey } from '../canvas/bench-view.ts';
import { Button } from '../controls/button.tsx';
import { keyTitle } from '../shell/key-words.ts';
import { useStore } from '../shell/state/store.ts';
import styles from './comparison-page.module.css';
import { fitBoth } from './fit-both.ts';
import { laidWords } from './laid-words.ts';
import { flick, laying, showThen } from './state/comparing.ts';

/** How much of then is seen over now; what the overlay goes by is said where that is less than ball and feet. */
export function Fade({ laid }: { readonly laid: LaidOver }) {
  const { then, flicked } = useStore(laying, (state) => state);
  return (
    <div className={styles.onPicture} data-side="left" role="group" aria-label="Then over now">
      <label className={styles.fade} title={`${keyTitle('more-then')} ${keyTitle('less-then')}`}>
        Now
        <input
          type="range"
          aria-label="How much of then"
          aria-valuetext={`${String(Math.round(100 * then))} % then`}
          min={0}
          max={100}
          value={Math.round(100 * then)}
          onChange={(event) => showThen(Number(event.target.value) / 100)}
        />
        Then
      </label>
      <button type="button" className={styles.choice} aria-pressed={flicked} title={keyTitle('flick')} onClick={flick}>
        Flick
      </button>
      {laid.by === 'ground' && !laid.mirrored ? null : <span className={styles.note}>{laidWords(laid)}</span>}
    </div>
  );
}

export function Zoom() {
  return (
    <div className={styles.onPicture} data-side="right" role="group" aria-label="Zoom">
      <Button small look="quiet" label={`Zoom out. ${keyTitle('zoom-out')}`} onPress={() => zoomByKey(-1)}>
        −
      </Button>
      <Button small look="quiet" label={`Zoom in. ${keyTitle('zoom-in')}`} onPress={() => zoomByKey(1)}>
        +
      </Button>
      <Button small look="quiet" label="Fit the player, or the whole picture" onPress={fitBoth}>
        Fit
      </Button>
    </div>
  );
}
